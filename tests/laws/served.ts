import type { PlanStep, StepId } from '../../machines/contract/index.ts';
import type { Act } from './record.ts';

type Window = NonNullable<PlanStep['dwell']>;

/**
 * Seconds a step's dwell had been served at `at`, holds taken out; null when it was never begun.
 * A wait for the gel or the set counts from the mix.
 */
export function servedS(
  acts: readonly Act[],
  step: StepId,
  window: Window,
  at: number,
): number | null {
  const begun = acts.findLastIndex((act) => act.what === 'begin' && act.step === step);
  const from = acts[begun];
  if (from === undefined) return null;
  const mixed = acts.findLast((act) => act.what === 'begin' && act.step === 'mix');
  const start = window.from === 'mix' && mixed !== undefined ? mixed.at : from.at;
  let held = 0;
  let since: number | null = null;
  for (const act of acts.slice(begun + 1)) {
    if (act.what === 'hold' && since === null && window.holdable) since = act.at;
    if (act.what === 'release' && since !== null) {
      held += act.at - since;
      since = null;
    }
  }
  if (since !== null) held += at - since;
  return (at - start - held) / 1000;
}
