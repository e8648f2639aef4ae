import type { StepId } from '../contract/index.ts';
import { CEMENT_TABLE } from '../trade/index.ts';
import type { Cards } from './card.ts';

/** After the set, to the lots written down. */
export const AFTER = {
  'isolation-out': {
    title: 'Isolation out, counted',
    todo: ({ unit }) =>
      unit.isolation === 'dam'
        ? 'Dam, tape and cord out: count them. Pack out: count it.'
        : 'Rolls, tape and cord out: count them. Pack out: count it.',
    gate: 'As many out as went in.',
    why: 'A cord left behind inflames; a pack left behind chokes.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  residual: {
    title: 'Residual cement',
    todo: 'Explorer and floss all round; radiograph if the margin is below the gum.',
    gate: 'Margins clear.',
    why: 'Cement below the gum is found now or by the inflammation.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'bite-after': {
    title: 'Bite',
    todo: 'Foil from thick to thin: centric, then excursions.',
    gate: 'Marks even, excursions free.',
    why: 'A high crown breaks, loosens or hurts.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  polish: {
    title: 'Polish',
    todo: 'Polish what was ground and the margins: coarse, medium, fine, paste.',
    gate: 'As smooth as the rest.',
    why: 'Rough ceramic wears the opposing tooth and gathers plaque.',
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
    todo: 'Lots of crown and materials, deviations, photos; recall in one to two weeks.',
    gate: 'Lots in the record.',
    why: 'If it comes off, this says what held it.',
    who: 'assistant',
    scope: 'case',
    cautions: [],
  },
} satisfies Partial<Cards<StepId>>;
