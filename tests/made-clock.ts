/** A clock whose time a test moves by hand; tasks run in order of their due times. */
import type { Clock } from '../assistant/voice/clock.ts';

/** A {@link Clock} with its hands free. */
export interface MadeClock extends Clock {
  /** Moves time to `ms`, running each task at its moment. */
  runTo(ms: number): void;
}

/** Starts at 0. */
export function madeClock(): MadeClock {
  let nowMs = 0;
  let tasks: { dueMs: number; order: number; task: () => void }[] = [];
  let order = 0;
  return {
    now: () => nowMs,
    at(dueMs, task) {
      const entry = { dueMs: Math.max(dueMs, nowMs), order: ++order, task };
      tasks.push(entry);
      return () => {
        tasks = tasks.filter((other) => other !== entry);
      };
    },
    runTo(ms) {
      for (;;) {
        const [next] = tasks
          .filter(({ dueMs }) => dueMs <= ms)
          .toSorted((one, other) => one.dueMs - other.dueMs || one.order - other.order);
        if (next === undefined) break;
        tasks = tasks.filter((other) => other !== next);
        nowMs = next.dueMs;
        next.task();
      }
      nowMs = ms;
    },
  };
}
