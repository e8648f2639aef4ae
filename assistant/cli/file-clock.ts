import type { Clock } from '../voice/clock.ts';

interface Waiting {
  readonly dueMs: number;
  readonly task: () => void;
}

/** A clock that goes on only when told to: the sound file's own. */
export class FileClock implements Clock {
  #nowMs = 0;
  #waiting: Waiting[] = [];

  now(): number {
    return this.#nowMs;
  }

  at(dueMs: number, task: () => void): () => void {
    const entry = { dueMs: Math.max(dueMs, this.#nowMs), task };
    this.#waiting.push(entry);
    return () => {
      this.#waiting = this.#waiting.filter((one) => one !== entry);
    };
  }

  /** Lets time go on to `toMs`; what comes due on the way runs at its own time, in order. */
  advanceTo(toMs: number): void {
    for (;;) {
      const next = this.#waiting
        .filter(({ dueMs }) => dueMs <= toMs)
        .toSorted((one, other) => one.dueMs - other.dueMs)[0];
      if (next === undefined) break;
      this.#waiting = this.#waiting.filter((one) => one !== next);
      this.#nowMs = Math.max(this.#nowMs, next.dueMs);
      next.task();
    }
    this.#nowMs = Math.max(this.#nowMs, toMs);
  }
}
