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

  /** The subjects that are not in `part`, a group within this one. @throws RangeError when it is none. */
  without(part: Tally): Tally {
    const rest = new Tally();
    const taken = new Map(part.counts().map((count) => [count.time, count]));
    for (const { time, events, censored } of this.counts()) {
      const { events: hit = 0, censored: left = 0 } = taken.get(time) ?? {};
      if (hit > events || left > censored)
        throw new RangeError(`More subjects at ${time} in the part than in the whole.`);
      if (events > hit) rest.add(time, true, events - hit);
      if (censored > left) rest.add(time, false, censored - left);
      taken.delete(time);
    }
    if (taken.size > 0) throw new RangeError('The part has times that the whole has not.');
    return rest;
  }
}
