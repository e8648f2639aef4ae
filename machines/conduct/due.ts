import type { Call, Dwell } from '../contract/index.ts';
import {
  type RunningDwell,
  servedAt,
  spoilsAt,
  type UnitContext,
  windowOf,
} from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

/** A call and the case time, in milliseconds, at which it is due. */
export interface DueCall {
  readonly at: number;
  readonly tooth: string;
  readonly call: Call;
}

/** Seconds before a dwell's target at which the rest is called; only those well inside the dwell. */
const MARKS = [60, 30, 10];
/** Seconds before the working time ends at which it is called. */
const SEAT_BY_MARKS = [60, 30, 10];
/** A forgotten dwell is called again, this many times, this many seconds apart. */
const REMINDERS = 4;
const REMINDER_GAP_S = 15;

function dwellCalls(window: Dwell, dwell: RunningDwell, tooth: string): DueCall[] {
  const { step } = dwell;
  const at = (seconds: number, call: Call): DueCall[] => {
    const time = servedAt(dwell, seconds);
    return time === null ? [] : [{ at: time, tooth, call }];
  };
  // A mark that was past before the dwell began says nothing.
  const credit = dwell.creditMs / 1000;
  const marks = MARKS.filter(
    (left) => left <= window.targetS * 0.6 && window.targetS - left > credit,
  ).flatMap((left) => at(window.targetS - left, { id: 'left', step, seconds: left }));
  const time = at(window.targetS, { id: 'time', step });
  const { maxS } = window;
  const alarms =
    maxS === null
      ? []
      : Array.from({ length: REMINDERS }, (_, index) =>
          at(maxS + 1 + index * REMINDER_GAP_S, { id: 'overdue', step }),
        ).flat();
  return [...marks, ...time, ...alarms];
}

function cementCalls(context: UnitContext, tooth: string): DueCall[] {
  const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const end = spoilsAt(context);
  if (!waiting || end === null || context.mixedAt === null) return [];
  const { workingS } = context.plan.cement;
  const marks = SEAT_BY_MARKS.filter((left) => left <= workingS * 0.6).map((left): DueCall => ({
    at: end - left * 1000,
    tooth,
    call: { id: 'seat-by', seconds: left },
  }));
  return [...marks, { at: end, tooth, call: { id: 'working-time-over' } }];
}

/**
 * Every timed call that the state as it stands will bring, in time order: it depends on the entries
 * alone, so a reload asks again and gets the same. Callers take those after the last they played.
 * Paused and stopped cases keep their alarms and drop the rest.
 */
export function dueCalls(state: CaseState): readonly DueCall[] {
  if (state.desk.matches({ pace: 'closed' })) return [];
  const quiet = !state.desk.matches({ pace: 'going' });
  const all = Object.keys(state.units).flatMap((tooth) => {
    const context = unitOf(state, tooth);
    const timed = context.dwells.flatMap((dwell) => {
      const window = windowOf(context, dwell.step);
      return window === null ? [] : dwellCalls(window, dwell, tooth);
    });
    return [...timed, ...cementCalls(context, tooth)];
  });
  const alarms = ['time', 'overdue', 'working-time-over'];
  return all
    .filter((due) => !quiet || alarms.includes(due.call.id))
    .toSorted((one, other) => one.at - other.at);
}
