import type { Dwell, StepId } from '../contract/index.ts';
import type { RunningDwell, UnitContext } from './context.ts';
import { planStep } from './steps.ts';

/** Milliseconds the dwell has been served at case time `at`: holds do not count. */
export function servedMs(dwell: RunningDwell, at: number): number {
  const holding = dwell.heldAt === null ? 0 : at - dwell.heldAt;
  return Math.max(0, at - dwell.startedAt + dwell.creditMs - dwell.heldMs - holding);
}

/** The running dwell of a step, or null. */
export function running(context: UnitContext, step: StepId | null): RunningDwell | null {
  return context.dwells.find((dwell) => dwell.step === step) ?? null;
}

/** The window of a step with what was added aloud; null for a step without a dwell. */
export function windowOf(context: UnitContext, step: StepId): Dwell | null {
  const window = planStep(context, step)?.dwell ?? null;
  const added = running(context, step)?.addedS ?? 0;
  if (window === null || added === 0) return window;
  return { ...window, targetS: window.targetS + added };
}

/** Whole seconds, rounded up, until the minimum is served; 0 when it is. */
export function shortByS(context: UnitContext, step: StepId, at: number): number {
  const dwell = running(context, step);
  const window = windowOf(context, step);
  if (dwell === null || window === null) return 0;
  return Math.max(0, Math.ceil((window.minS * 1000 - servedMs(dwell, at)) / 1000));
}

/** Whether the dwell has passed its maximum. */
export function isLong(context: UnitContext, step: StepId, at: number): boolean {
  const dwell = running(context, step);
  const window = windowOf(context, step);
  if (dwell === null || window === null || window.maxS === null) return false;
  return servedMs(dwell, at) > window.maxS * 1000;
}

/** Case time at which the dwell will have been served for `seconds`, after it began; null while it is held. */
export function servedAt(dwell: RunningDwell, seconds: number): number | null {
  if (dwell.heldAt !== null) return null;
  const due = dwell.startedAt - dwell.creditMs + dwell.heldMs + seconds * 1000;
  return Math.max(due, dwell.startedAt + 1);
}
