import { WEIGHING } from '../../trade/index.ts';
import { kaplanMeier, logRank, rateOf, Tally } from '../survival/index.ts';
import type { Curve, LogRank, Rate } from '../survival/index.ts';
import type { Followed } from './follow-up.ts';

/** One group's follow-up. Times in days; the rate is debonds per year in place. */
export interface Group {
  readonly name: string;
  readonly restorations: number;
  readonly debonds: number;
  readonly rate: Rate;
  readonly curve: Curve;
  /** Too few debonds to say much. */
  readonly few: boolean;
}

/** Groups side by side, as they stand: nothing else about them is evened out. */
export interface Comparison {
  readonly by: string;
  readonly groups: readonly Group[];
  /** Null when there is nothing to compare. */
  readonly logRank: LogRank | null;
  /** A group has too few debonds. */
  readonly few: boolean;
}

const isFew = (debonds: number): boolean => debonds < WEIGHING.small.value;

/** A group as it is shown. */
export function groupOf(name: string, tally: Tally): Group {
  const { subjects, events, exposure } = tally;
  const rate = rateOf(events, exposure / WEIGHING.year.value);
  const curve = kaplanMeier(tally);
  return { name, restorations: subjects, debonds: events, rate, curve, few: isFew(events) };
}

/** Compares groups by the log-rank test. */
export function compare(by: string, tallies: Readonly<Record<string, Tally>>): Comparison {
  const groups = Object.entries(tallies).map(([name, tally]) => groupOf(name, tally));
  return { by, groups, logRank: logRank(tallies), few: groups.some(({ few }) => few) };
}

/** Tallies by level, made as levels come. */
export class Levels {
  readonly #tallies = new Map<string, Tally>();

  add(level: string, { days, lost }: Followed): void {
    const tally = this.#tallies.get(level) ?? new Tally();
    this.#tallies.set(level, tally.add(days, lost));
  }

  /** Level and tally, the most restorations first. */
  entries(): readonly (readonly [string, Tally])[] {
    return [...this.#tallies].toSorted(
      ([one, { subjects: a }], [other, { subjects: b }]) => b - a || one.localeCompare(other, 'en'),
    );
  }
}
