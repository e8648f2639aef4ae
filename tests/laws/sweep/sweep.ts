import type { UnitContext } from '../../../machines/seating/index.ts';
import { initialTransition } from 'xstate';
import { unitMachine } from '../../../machines/seating/index.ts';
import { crossings } from './crossings.ts';
import { eventsOf } from './events.ts';
import { explore, type Swept } from './explore.ts';
import { classOf, contaminantsOf, OTHERS_OF, type PartName, STEPS_OF } from './parts.ts';
import { CONTAMINANTS } from '../../../machines/contract/index.ts';

const SURFACES = {
  inside: ['intaglio'],
  'tooth side': ['prep', 'field'],
  cement: ['intaglio', 'prep', 'field'],
} as const;
/** Events in which the parts of the machine meet. */
const MEETINGS = ['begin.try-in', 'begin.mix', 'begin.load', 'begin.seat', 'start-over'];

/** Goes through one part of a unit's machine, from the unit as it arrives, with so many dwells at once. */
export function sweep(
  part: PartName,
  { facts, shelf, plan }: UnitContext,
  together: number,
  most = Number.POSITIVE_INFINITY,
): Swept {
  const [snapshot] = initialTransition(unitMachine, { facts, shelf, plan });
  const { context } = snapshot;
  const classes = new Map<string, string>(
    CONTAMINANTS.map((what) => [what, classOf(context, what)]),
  );
  const soils = part === 'inside' ? contaminantsOf(context) : (['saliva'] as const);
  const events = eventsOf(STEPS_OF[part], soils, SURFACES[part]);
  const meetings = events.filter(({ type }) => MEETINGS.includes(type));
  const swept = explore([{ snapshot, acts: [] }], {
    events,
    steps: STEPS_OF[part],
    together,
    most,
    others: OTHERS_OF[part],
    named: (what) => classes.get(what) ?? what,
  });
  return { ...swept, broken: [...swept.broken, ...crossings(context, meetings)] };
}
