/** How long a prepared surface stays good, said a second time over the record (trade reference, 9B). */
import type { PlanStep, StepId } from '../../machines/contract/index.ts';
import type { Law } from './laws.ts';
import type { Act } from './record.ts';
import { agents, primers } from './steps.ts';

const INSIDE: readonly StepId[] = ['abrade', 'intaglio-dry', 'primer-dry'];
const CLEANED: readonly StepId[] = ['prep-clean', 'pumice', 'abutment-clean', 'base-abrade'];

/** Whether an act does away with what `made` left. */
function endsIt(made: StepId, { what, step, surface }: Act): boolean {
  if (what === 'start-over' || (what === 'begin' && step === 'try-in')) return true;
  const inside = INSIDE.includes(made);
  if (what === 'soil') return surface === (inside ? 'intaglio' : 'prep');
  if (step === null || what === 'skip') return false;
  if (!inside && CLEANED.includes(step)) return true;
  if (made === 'tooth-etch-rinse' && step === 'bond-thin' && what === 'finish') return true;
  if (what !== 'begin') return false;
  if (inside) return agents.includes(step) || (made === 'primer-dry' && primers.includes(step));
  if (made === 'bond-thin') {
    return ['tooth-etch', 'core-primer', 'abutment-primer', 'bond'].includes(step);
  }
  return made === 'tooth-etch-rinse' && step === 'tooth-etch';
}

/** Case time at which the surface that a step leaves was made, ms; null when there is none. */
function madeAt(acts: readonly Act[], { id }: PlanStep): { at: number; since: number } | null {
  const gone = acts.findLastIndex((act) => endsIt(id, act));
  // The clean base and the cleaned prep are made by the act that does away with what was there.
  const from = acts[gone]?.step === id && acts[gone]?.what === 'finish' ? gone : gone + 1;
  const since = acts.findIndex((act, n) => n >= from && act.what === 'finish' && act.step === id);
  const made = acts[since];
  return made === undefined ? null : { at: made.at, since };
}

/** 12: forbids priming, bonding, mixing, loading or seating on a surface that has stood past its time. */
export const law12: Law = ({ act, chair, plan }) => {
  const { step } = act;
  if (act.what !== 'begin' || step === null || act.overrode.includes('surface-stale')) return null;
  for (const planned of [...plan.steps, ...plan.spare]) {
    const { goodFor } = planned;
    if (goodFor === null) continue;
    const overPrimer = planned.id === 'primer-dry' && primers.includes(step);
    if (!goodFor.before.includes(step) && !overPrimer) continue;
    const made = madeAt(chair.acts, planned);
    if (made === null || act.at - made.at <= goodFor.seconds * 1000) continue;
    const begun = chair.acts
      .slice(made.since + 1)
      .some(
        (one) =>
          one.what === 'begin' &&
          one.step !== null &&
          one.step !== step &&
          goodFor.before.includes(one.step),
      );
    if (!begun) return `${step} on what ${planned.id} left ${(act.at - made.at) / 1000} s before`;
  }
  return null;
};
