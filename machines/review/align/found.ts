import type { Transition } from '../net/process-net.ts';

/** A move found: an event of the trace, a transition, or both at once. */
export interface Found {
  readonly event: number | null;
  readonly transition: Transition | null;
}

export interface Alignment {
  readonly cost: number;
  readonly moves: readonly Found[];
  /** Markings or orders looked at: how hard it was. */
  readonly expanded: number;
}

/** The search was given up; the cost is at least `least`. */
export class TooHard extends Error {
  override readonly name = 'TooHard';
  readonly least: number;

  constructor(least: number) {
    super(`The alignment costs at least ${least}; no more was worked out.`);
    this.least = least;
  }
}
