import { chiSquareP } from './gamma.ts';
import { solve } from './solve.ts';
import type { Tally } from './tally.ts';

/** One group in the comparison. */
export interface RankedGroup {
  readonly name: string;
  readonly subjects: number;
  readonly observed: number;
  readonly expected: number;
}

export interface LogRank {
  readonly groups: readonly RankedGroup[];
  readonly chiSquare: number;
  readonly df: number;
  readonly p: number;
}

interface Standing {
  readonly counts: ReadonlyMap<number, { readonly events: number; readonly censored: number }>;
  atRisk: number;
}

/**
 * The log-rank test between two or more groups, with the hypergeometric variance at ties. Null when
 * there is nothing to compare: fewer than two groups in which an event could have happened.
 * Source: Mantel N. Cancer Chemother Rep 1966;50:163-170; Peto R, Peto J. J R Stat Soc A
 * 1972;135:185-207 (from memory).
 */
export function logRank(groups: Readonly<Record<string, Tally>>): LogRank | null {
  const names = Object.keys(groups);
  const standings = Object.values(groups).map((tally): Standing => {
    const counts = new Map(tally.counts().map(({ time, ...count }) => [time, count]));
    return { counts, atRisk: tally.subjects };
  });
  const times = [...new Set(standings.flatMap(({ counts }) => [...counts.keys()]))];
  const expected = names.map(() => 0);
  const variance = names.map(() => names.map(() => 0));
  for (const time of times.toSorted((one, other) => one - other)) {
    const atRisk = standings.map((one) => one.atRisk);
    const n = atRisk.reduce((sum, one) => sum + one, 0);
    const d = standings.reduce((sum, { counts }) => sum + (counts.get(time)?.events ?? 0), 0);
    const spread = n > 1 ? (d * (n - d)) / (n * n * (n - 1)) : 0;
    for (const [i, mine] of atRisk.entries()) {
      expected[i] = (expected[i] ?? 0) + (d * mine) / n;
      const row = variance[i] ?? [];
      for (const [j, other] of atRisk.entries())
        row[j] = (row[j] ?? 0) + spread * (i === j ? mine * (n - mine) : -mine * other);
    }
    for (const one of standings) {
      const { events, censored } = one.counts.get(time) ?? { events: 0, censored: 0 };
      one.atRisk -= events + censored;
    }
  }
  const ranked = Object.entries(groups).map(([name, { subjects, events }], i) => ({
    name,
    subjects,
    observed: events,
    expected: expected[i] ?? 0,
  }));
  // The differences sum to nought, so one group is left out; groups never at risk say nothing.
  const kept = ranked.flatMap((group, i) => (group.expected > 0 ? [i] : [])).slice(1);
  if (kept.length === 0) return null;
  const difference = kept.map((i) => (ranked[i]?.observed ?? 0) - (ranked[i]?.expected ?? 0));
  const among = kept.map((i) => kept.map((j) => variance[i]?.[j] ?? 0));
  const solved = solve(among, difference);
  if (solved === null) return null;
  const chiSquare = difference.reduce((sum, one, i) => sum + one * (solved[i] ?? 0), 0);
  const df = kept.length;
  return { groups: ranked, chiSquare, df, p: chiSquareP(chiSquare, df) };
}
