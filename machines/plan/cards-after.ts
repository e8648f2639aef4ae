import type { StepId } from '../contract/index.ts';
import { CEMENT_TABLE } from '../trade/index.ts';
import type { Cards } from './card.ts';

/** After the set, to the lots written down. */
export const AFTER = {
  'isolation-out': {
    title: 'Isolation out, counted',
    todo: ({ unit, substrate }) =>
      substrate.of === 'abutment'
        ? 'Retractor, rolls, dam, tape and cord out: count them. Pack out: count it.'
        : unit.isolation === 'dam'
          ? 'Dam, tape and cord out: count them. Pack out: count it.'
          : 'Rolls, tape and cord out: count them. Pack out: count it.',
    gate: 'As many out as went in.',
    why: 'A cord left behind inflames; a pack left behind chokes.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  'joint-finish': {
    title: 'Polish the joint',
    todo: 'Cement joint polished under magnification, ultrasonic bath, then disinfect, as the instructions of the base say.',
    gate: 'Joint smooth all round, screw runs free, disinfected.',
    why: 'This joint lies under the gum: what is rough or soft there inflames it.',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
  residual: {
    title: 'Residual cement',
    todo: ({ substrate }) =>
      substrate.of === 'abutment'
        ? 'Explorer and floss all round, and a radiograph.'
        : 'Explorer and floss all round; radiograph if the margin is below the gum.',
    gate: 'Margins clear.',
    why: 'Cement below the gum is found now or by the inflammation.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'screw-in': {
    title: 'Screw it in',
    todo: 'Throat pack in, driver on a ligature. Cover or provisional off, crown on the implant, screw by hand. Contacts with floss, seat with a radiograph; patient sees it and agrees.',
    gate: 'Contacts right, no gap on the radiograph, gum not pinched for long, patient agrees.',
    why: 'A tight contact or pinched gum keeps it off the implant, and then the torque lies.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  torque: {
    title: 'Torque',
    todo: ({ unit }) =>
      `Screw to ${unit.abutment?.torqueNcm === undefined ? 'the torque its instructions say' : `${unit.abutment.torqueNcm} Ncm`}; again after some minutes if they say so.`,
    gate: 'Torque reached on a calibrated wrench, written down.',
    why: 'The screw settles: what was not torqued works loose.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  'bite-after': {
    title: 'Bite',
    todo: ({ trade: { limits } }) =>
      `Foil from thick to thin (${limits.biteFoil.max}, ${limits.biteFoil.target}, ${limits.biteFoil.min} micrometres): centric, then excursions. What is high is ground with a fine instrument under water, never dry.`,
    gate: 'Marks even, excursions free.',
    why: 'A high crown breaks, loosens or hurts.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'access-close': {
    title: 'Close the access',
    todo: 'Tape (PTFE) over the screw, composite over the tape, cured.',
    gate: 'Access flush, bite marks unchanged.',
    why: 'Tape keeps the way to the screw; composite keeps saliva out of it.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['blue-light', 'resin-allergy'],
  },
  polish: {
    title: 'Polish',
    todo: 'Polish what was ground and the margins: coarse, medium, fine, paste.',
    gate: ({ trade }) =>
      `As smooth as the rest (Ra ${trade.limits.roughness.value} micrometre at most).`,
    why: 'A rough surface wears the opposing tooth and gathers plaque.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  instructions: {
    title: 'Instructions',
    todo: ({ caseFile }) => {
      const { units, shelf } = caseFile;
      const used = shelf.cements.filter(({ label }) =>
        units.some(({ cement }) => cement === label),
      );
      const rules = new Set(used.map((cement) => CEMENT_TABLE[cement.class].aftercare));
      return `${[...rules].join(' ')} Floss; call if it is high or loose.`;
    },
    gate: 'Patient has understood.',
    why: 'The cement goes on hardening.',
    who: 'assistant',
    scope: 'case',
    cautions: [],
  },
  lots: {
    title: 'Lots',
    todo: 'Lots of crown and materials, deviations, photos; recall in one to two weeks, then in six to twelve months.',
    gate: 'Lots in the record.',
    why: 'If it comes off, this says what held it.',
    who: 'assistant',
    scope: 'case',
    cautions: [],
  },
} satisfies Partial<Cards<StepId>>;
