import type { StepId } from '../../machines/contract/index.ts';
import { perform } from '../chair/moves.ts';
import type { Operatory } from '../chair/operatory.ts';

/** Steps on which the rest hangs; each is tried, and where it is refused its way on is followed. */
const TRIED: readonly StepId[] = [
  'mix',
  'seat',
  'silane',
  'zirconia-primer',
  'bond',
  'tack',
  'residual',
];
/** Refusals that no step can mend: the shelf lacks it, the plan never has it, or it is done already. */
const NO_STEP = [
  'not-on-shelf',
  'not-planned',
  'peroxide-on-tooth',
  'seated-already',
  'mixed-already',
  'stopped',
  'paused',
  'closed',
];
/** Refusals whose way on takes the place of what was asked. */
const INSTEAD = [
  'silane-on-zirconia',
  'primer-on-glass',
  'etch-not-etchable',
  'acid-before-primer',
  'abrade-glass',
  'cleaner-on-glass',
  'acid-on-dentin',
];
/** A whole preparation of both surfaces from nothing is some forty steps. */
const MOST = 90;

/** Follows the ways on of refused steps until each is accepted; null, or the refusal that leads nowhere. */
export function leadsOn(from: Operatory): string | null {
  for (const wanted of TRIED) {
    const chair = from.fork();
    chair.say({ type: 'resume' });
    const path: string[] = [];
    let goals: StepId[] = [wanted];
    for (let turns = 0; goals.length > 0; turns += 1) {
      const goal = goals.at(-1);
      if (goal === undefined) break;
      if (turns > MOST) return `${wanted}: round and round, ${path.slice(-8).join('; ')}`;
      const mark = chair.told.length;
      perform(chair, goal, chair.state.active);
      const refused = chair.told
        .slice(mark)
        .map(({ outcome }) => (outcome.kind === 'refused' ? outcome.refusal : null))
        .find((one) => one !== null);
      if (refused === undefined || refused === null) {
        goals = goals.slice(0, -1);
        continue;
      }
      path.push(`${goal} ${refused.id} -> ${String(refused.wayOn)}`);
      if (refused.wayOn === null) {
        const known = NO_STEP.includes(refused.id) || wayless(chair, refused.id);
        if (!known) return `${wanted}: ${path.join('; ')}`;
        break;
      }
      // What never suits the ceramic has its way on instead of it, not before it.
      const rest = INSTEAD.includes(refused.id) ? goals.slice(0, -1) : goals;
      goals = [...rest.filter((one) => one !== refused.wayOn), refused.wayOn];
    }
  }
  return null;
}

/** What is refused for good on this ceramic, or wants another word than a step (start over, take it out of a seat). */
function wayless(chair: Operatory, id: string): boolean {
  const { now } = chair.unit;
  if (id === 'in-mouth') return now.where === 'seated';
  return id === 'working-time-over' && now.cement === 'loaded';
}
