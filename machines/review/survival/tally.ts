/** What happened at one time: how many events, how many left being followed without one. */
export interface Count {
  readonly time: number;
  readonly events: number;
  readonly censored: number;
}

/**
 * Follow-up of a group, kept as counts by time: it grows with the number of different times, not
 * with the number of people. Times are in any unit, the same throughout; equal times are ties.
 */
export class Tally {
  readonly #counts = new Map<number, { events: number; censored: number }>();
  events = 0;
  subjects = 0;
  /** Time of all subjects together. */
  exposure = 0;

  /** Adds `many` subjects. @throws RangeError when the time is negative or no number. */
  add(time: number, event: boolean, many = 1): this {
    if (!(time >= 0) || !Number.isFinite(time))
      throw new RangeError(`A follow-up time is 0 or more, not ${time}.`);
    const count = this.#counts.get(time) ?? { events: 0, censored: 0 };
    if (event) count.events += many;
    else count.censored += many;
    this.#counts.set(time, count);
    if (event) this.events += many;
    this.subjects += many;
    this.exposure += time * many;
    return this;
  }

  /** The counts in order of time. */
  counts(): readonly Count[] {
    return [...this.#counts]
      .map(([time, count]) => ({ time, ...count }))
      .toSorted((one, other) => one.time - other.time);
  }
}
