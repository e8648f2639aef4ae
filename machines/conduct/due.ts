import type { Dwell } from '../contract/index.ts';
import {
  type RunningDwell,
  servedAt,
  spoilsAt,
  staleAt,
  type UnitContext,
  windowOf,
} from '../seating/index.ts';
import type { DueCall } from './due-call.ts';
import { holdsUntil } from './hold.ts';
import { spaced } from './spacing.ts';
import { type CaseState, unitOf } from './state.ts';
import { about } from './whose.ts';

/** Seconds before a dwell's target at which the rest is called; only those well inside the dwell. */
const MARKS = [60, 30, 10];
/** Seconds before the working time ends at which it is called. */
const SEAT_BY_MARKS = [60, 30, 10];
/** Seconds before the gel or the set at which the rest is called. */
const HOLD_MARKS = [120, 60, 30, 10];
/** Seconds before a surface is past at which that is called: the first two that lie in its second half. */
const FRESH_MARKS = [300, 60, 30, 10];
/** A forgotten dwell is called again, this many times, this many seconds apart. */
const REMINDERS = 4;
const REMINDER_GAP_S = 15;

/** What is due on one unit, before it is said whose it is. */
type Due = Pick<DueCall, 'at'> & { readonly call: Parameters<typeof about>[2] };

function dwellCalls(window: Dwell, dwell: RunningDwell): Due[] {
  const { step } = dwell;
  const at = (seconds: number, call: Due['call']): Due[] => {
    const time = servedAt(dwell, seconds);
    return time === null ? [] : [{ at: time, call }];
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

/** "Seat by": the working time at the room's temperature, from the mix. */
function seatByCalls(context: UnitContext): Due[] {
  const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const end = spoilsAt(context);
  if (!waiting || end === null || context.mixedAt === null) return [];
  const workingS = (end - context.mixedAt) / 1000;
  const marks = SEAT_BY_MARKS.filter((left) => left <= workingS * 0.6).map((left): Due => ({
    at: end - left * 1000,
    call: { id: 'seat-by', seconds: left },
  }));
  return [...marks, { at: end, call: { id: 'working-time-over' } }];
}

/**
 * "Hold until": the gel or the set, counted from the mix, once it is seated; a wait that was begun calls
 * itself. Marks before case time `from` were past when it was seated and say nothing.
 */
function holdCalls(context: UnitContext, from: number): Due[] {
  const hold = holdsUntil(context);
  if (hold === null) return [];
  const { until } = hold;
  const marks = HOLD_MARKS.map((left) => ({ left, at: hold.at - left * 1000 }))
    .filter(({ at }) => at >= from)
    .map(({ left, at }): Due => ({ at, call: { id: 'hold-until', until, seconds: left } }));
  return [...marks, { at: hold.at, call: { id: 'hold-over', until } }];
}

/** What a step left and nothing has used yet: called before it is past, and when it is (trade reference, 9B). */
function freshCalls(context: UnitContext): Due[] {
  if (context.now.where === 'seated') return [];
  return context.made
    .filter(({ used }) => used.length === 0)
    .flatMap((made): Due[] => {
      const { step } = made;
      const end = staleAt(context, made);
      const marks = FRESH_MARKS.filter((left) => left * 2000 <= end - made.at).slice(0, 2);
      return [
        ...marks.map((left): Due => ({
          at: end - left * 1000,
          call: { id: 'good-for', step, seconds: left },
        })),
        { at: end, call: { id: 'lapsed', step } },
      ];
    });
}

/**
 * Every timed call that the state as it stands will bring, in time order: it depends on the entries
 * alone, so a reload asks again and gets the same. Callers take those after the last they played.
 * Paused and stopped cases keep their alarms and drop the rest. Marks that would be said over one
 * another are set apart (see {@link spaced}).
 */
export function dueCalls(state: CaseState): readonly DueCall[] {
  if (state.desk.matches({ pace: 'closed' })) return [];
  const quiet = !state.desk.matches({ pace: 'going' });
  const all = Object.keys(state.units).flatMap((tooth) => {
    const context = unitOf(state, tooth);
    const timed = context.dwells.flatMap((dwell) => {
      const window = windowOf(context, dwell.step);
      return window === null ? [] : dwellCalls(window, dwell);
    });
    const dues = [
      ...timed,
      ...seatByCalls(context),
      ...holdCalls(context, state.at),
      ...freshCalls(context),
    ];
    return dues.map(({ at, call }) => ({ at, tooth, call: about(state, tooth, call) }));
  });
  const alarms = ['time', 'overdue', 'working-time-over', 'hold-over', 'lapsed'];
  return spaced(all.filter((due) => !quiet || alarms.includes(due.call.id)));
}
