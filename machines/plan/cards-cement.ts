import type { CautionId, StepId } from '../contract/index.ts';
import { toothClass } from '../form/index.ts';
import type { Cards, StepCard } from './card.ts';
import type { UnitContext } from './context.ts';
import { seatingOrder } from './order.ts';

const resin = ({ clock }: UnitContext): readonly CautionId[] =>
  clock.table.oxygenInhibited ? ['resin-allergy'] : [];

const lit = ({ light, trade }: UnitContext): string => {
  if (light === null) return 'no light on the shelf';
  return light.bursts === 1
    ? `${light.lightS} seconds`
    : `${light.lightS} seconds of light in bursts of ${trade.light.burst.value} at most, ${light.pauseS} seconds pause between, air stream`;
};

/** How the excess is when it comes off. */
const EXCESS = {
  rubber: 'like rubber',
  doughy: 'doughy and brittle',
  hard: 'fully hard',
} as const;

/** The three surfaces as they are called at this tooth. */
const sideOf = (side: 'occlusal' | 'buccal' | 'lingual', { unit }: UnitContext): string => {
  const front = ['incisor', 'canine'].includes(toothClass(unit.tooth) ?? '');
  const upper = /^[12]/.test(unit.tooth);
  switch (side) {
    case 'occlusal':
      return front ? 'biting edge' : 'biting surface';
    case 'buccal':
      return `${front ? 'lip' : 'cheek'} side and both proximal edges`;
    default:
      return `${upper ? 'palate' : 'tongue'} side and both proximal edges`;
  }
};

/** No pulp lies under an abutment. */
const litCautions = ({ seats, trade }: UnitContext): readonly CautionId[] =>
  seats.every(({ substrate }) => trade.substrates[substrate].of === 'abutment')
    ? ['blue-light']
    : ['blue-light', 'heat'];

const cure = (side: 'occlusal' | 'buccal' | 'lingual'): StepCard => ({
  title: `Cure ${side}`,
  todo: (context) => `Light on the ${sideOf(side, context)}: ${lit(context)}.`,
  gate: 'Tip close, square, still.',
  why: ({ light }) =>
    light?.reaches === false
      ? 'Light sets the margins; through the restoration too little arrives, so the set is waited for.'
      : 'Less light, less conversion: also dual cements are weaker without it (Vrochari 2009).',
  who: 'assistant',
  scope: 'unit',
  cautions: litCautions,
});

/** From the mix to the set. */
export const CEMENT = {
  mix: {
    title: 'Mix the cement',
    todo: ({ cement, clock, caseFile, trade, unit }) => {
      const mix = seatingOrder(caseFile, trade).find((teeth) => teeth.includes(unit.tooth)) ?? [];
      const others = mix.filter((tooth) => tooth !== unit.tooth);
      const alone = caseFile.units.length > 1 ? ' For this unit alone.' : '';
      const shared =
        others.length === 0
          ? alone
          : ` With ${others.join(' and ')} of one mix: only when all are ready; say the mix for each, then mix: each clock runs from its own word.`;
      return clock.table.setsAlone
        ? `Mix ${cement.label}. The working time runs from here.${shared}`
        : `Dispense ${cement.label}, operating lamp off: light starts it. The time runs from here.${shared}`;
    },
    gate: 'Even, no bubbles. Both surfaces ready and the field dry before it.',
    why: 'Mixed cement does not wait.',
    who: 'assistant',
    scope: 'unit',
    cautions: resin,
  },
  load: {
    title: 'Load the crown',
    todo: ({ unit }) =>
      unit.kind === 'inlay'
        ? 'A thin layer on the inlay, and on the walls of the cavity, to the margin.'
        : unit.kind === 'veneer' || unit.kind === 'resin-bonded-bridge'
          ? 'An even layer over all of the inside, thicker in the middle, none dry at the edge.'
          : 'A thin layer on all inside walls, to the margin; not full.',
    gate: 'All of it covered to the margin, no bubble.',
    why: 'Too much cement keeps it from going down.',
    who: 'assistant',
    scope: 'unit',
    cautions: resin,
  },
  seat: {
    title: 'Seat and hold',
    todo: ({ unit }) =>
      unit.kind === 'veneer' || unit.kind === 'inlay'
        ? 'Down slowly with the finger, cement coming out all round, then steady light pressure: hold it still.'
        : 'Down with the finger, rock it home, then firm straight pressure: hold it still.',
    gate: 'Margin closed all round, cement at the whole margin.',
    why: 'Motion while it gels tears the cement.',
    who: 'dentist',
    scope: 'unit',
    // On its base it is bonded on the bench.
    cautions: ({ unit }) =>
      unit.substrate === 'titanium-base' ? ['roles'] : ['aspiration', 'roles'],
  },
  tack: {
    title: 'Tack',
    todo: ({ trade }) =>
      `Tack the excess: ${trade.light.tackQuarter.min} to ${trade.light.tackQuarter.max} seconds a quarter, tip ${trade.limits.tackDistance.min} to ${trade.limits.tackDistance.max} mm away, keep moving; hold the crown.`,
    gate: 'Excess like rubber.',
    why: 'Tacked excess peels in one piece; hard excess does not come off.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['blue-light'],
  },
  'gel-wait': {
    title: 'Wait for the gel',
    todo: ({ clock }) =>
      `Hold the crown; probe the excess until it is ${EXCESS[clock.table.excess]}.`,
    gate: ({ clock }) => `Excess ${EXCESS[clock.table.excess]}.`,
    why: ({ clock }) =>
      clock.table.excess === 'hard'
        ? 'Soft, it drags out of the margin; fully hard it breaks off clean.'
        : 'Too early drags cement out of the margin; too late it is hard.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  flash: {
    title: 'Flash off',
    todo: ({ clock }) =>
      clock.table.excess === 'rubber'
        ? 'Peel the excess off towards the margin; hold the crown.'
        : 'Break the excess off towards the margin with a hand instrument; hold the crown.',
    gate: 'No excess to be seen or felt.',
    why: 'Cement left behind inflames the gum.',
    who: 'both',
    scope: 'unit',
    cautions: ['roles'],
  },
  floss: {
    title: 'Floss through',
    todo: 'Floss down both contacts, pulled out sideways, never up.',
    gate: 'Contacts free.',
    why: 'Pulled up, it lifts the crown and drags cement.',
    who: 'both',
    scope: 'unit',
    cautions: [],
  },
  gel: {
    title: 'Glycerine gel on',
    todo: 'Glycerine gel over all margins.',
    gate: 'Margins covered.',
    why: 'Air keeps the surface of resin soft: a lip that washes out.',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
  'cure-occlusal': cure('occlusal'),
  'cure-buccal': cure('buccal'),
  'cure-lingual': cure('lingual'),
  set: {
    title: 'Wait for the set',
    todo: ({ clock }) => `Leave it alone until ${clock.settingS} seconds after the mix.`,
    gate: 'Set: the rest on the pad or at the margin is hard.',
    why: ({ light }) =>
      light === null
        ? 'It sets by itself, and holds only once it is hard.'
        : 'Through this restoration light alone does not set it.',
    who: 'both',
    scope: 'unit',
    cautions: [],
  },
} satisfies Partial<Cards<StepId>>;
