import type { StepId } from '../contract/index.ts';
import { servedAt, windowOf } from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

/** What is left of a dwell. */
interface TimeLeft {
  readonly tooth: string;
  readonly step: StepId;
  /** Whole seconds to its target, 0 when that is past. */
  readonly seconds: number;
}

/** What is left of every dwell that runs and is not held, on all units, at case time `at` (ms); the first to end, first. */
export function timesLeft(state: CaseState, at: number): readonly TimeLeft[] {
  return Object.keys(state.units)
    .flatMap((tooth) => {
      const context = unitOf(state, tooth);
      return context.dwells.flatMap((dwell): TimeLeft[] => {
        const end = servedAt(dwell, windowOf(context, dwell.step)?.targetS ?? 0);
        if (end === null) return [];
        const seconds = Math.max(0, Math.ceil((end - at) / 1000));
        return [{ tooth, step: dwell.step, seconds }];
      });
    })
    .toSorted((one, other) => one.seconds - other.seconds);
}
