/**
 * Survival against R's package `survival` (Debian r-cran-survival) to six digits: its output is kept in
 * data/survival.json, the script that made it beside it. Then published figures, from memory.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
  atRiskAt,
  chiSquareAbove,
  chiSquareP,
  kaplanMeier,
  logRank,
  normalDeviate,
  pointAt,
  rateOf,
  rateRegression,
  Tally,
} from '../../machines/review/survival/index.ts';

const numbers = z.array(z.number());
const sparse = z.array(z.number().nullable());
const Curve = z.strictObject({
  time: numbers,
  atRisk: numbers,
  events: numbers,
  censored: numbers,
  survival: numbers,
  se: sparse,
  lower: sparse,
  upper: sparse,
  median: sparse,
});
const Made = z.strictObject({
  made: z.string(),
  chiSquare: z.array(z.tuple([z.number(), z.number(), z.number()])),
  sets: z.array(
    z.strictObject({
      name: z.string(),
      source: z.string(),
      time: numbers,
      event: numbers,
      group: numbers,
      curves: z.array(Curve),
      logRank: z.strictObject({
        observed: numbers,
        expected: numbers,
        chiSquare: z.number(),
        df: z.number(),
        p: z.number(),
      }),
      rates: z
        .strictObject({ log: numbers, se: numbers, p: numbers, exact: z.array(numbers) })
        .optional(),
    }),
  ),
});
const text = readFileSync(new URL('data/survival.json', import.meta.url), 'utf8');
const made = Made.parse(JSON.parse(text));
type MadeSet = (typeof made.sets)[number];

/** Six significant digits, as both programs would print them; half a unit of the last is forgiven. */
function expectDigits(ours: readonly (number | null)[], theirs: readonly (number | null)[]): void {
  const off = ours.flatMap((value, i) => {
    const other = theirs[i] ?? null;
    if (value === null || other === null) return value === other ? [] : [{ i, value, other }];
    const near = Math.abs(value - other) <= 1e-6 * Math.abs(other) + 1e-12;
    return near ? [] : [{ i, value, other }];
  });
  expect([ours.length, off]).toEqual([theirs.length, []]);
}

function tallies({
  time,
  event,
  group,
}: Pick<MadeSet, 'time' | 'event' | 'group'>): Record<string, Tally> {
  const groups: Record<string, Tally> = {};
  for (const name of [...new Set(group)].toSorted((one, other) => one - other))
    groups[`g${name}`] = new Tally();
  for (const [i, at] of time.entries()) groups[`g${group[i] ?? 0}`]?.add(at, event[i] === 1);
  return groups;
}

test('enough was compared', () => {
  expect(made.sets.map(({ name, curves }) => `${name} ${curves.length}`)).toEqual([
    'remission 2',
    'aml 2',
    'lung 2',
    'cells 4',
    'ovarian 2',
    'ties 3',
    'many 6',
    'rare 2',
    'even 3',
  ]);
});

test('chi-square probabilities, and back', () => {
  expectDigits(
    made.chiSquare.map(([x, df]) => chiSquareP(x, df)),
    made.chiSquare.map(([, , p]) => p),
  );
  const sure = made.chiSquare.filter(([, , p]) => p < 0.9999);
  expectDigits(
    sure.map(([, df, p]) => chiSquareAbove(p, df)).map((x) => Math.round(x * 1e6) / 1e6),
    sure.map(([x]) => x),
  );
  expect(normalDeviate(0.95).toFixed(6)).toBe('1.959964');
});

describe.each(made.sets)('$name', (set) => {
  const groups = tallies(set);

  test('product-limit curves, Greenwood errors, log-log intervals, medians', () => {
    for (const [i, tally] of Object.values(groups).entries()) {
      const { points, median } = kaplanMeier(tally);
      const theirs = set.curves[i];
      if (theirs === undefined) throw new Error(`No curve ${i}`);
      const exact = points.map(({ time, atRisk, events, censored }) => [
        time,
        atRisk,
        events,
        censored,
      ]);
      expect(exact).toEqual(
        theirs.time.map((time, k) => [
          time,
          theirs.atRisk[k],
          theirs.events[k],
          theirs.censored[k],
        ]),
      );
      for (const field of ['survival', 'se', 'lower', 'upper'] as const)
        expectDigits(
          points.map((point) => point[field]),
          theirs[field],
        );
      expectDigits([median.time, median.lower, median.upper], theirs.median);
    }
  });

  test('log-rank', () => {
    const compared = logRank(groups);
    expect(compared?.df).toBe(set.logRank.df);
    expect(compared?.groups.map(({ observed }) => observed)).toEqual(set.logRank.observed);
    expectDigits(compared?.groups.map(({ expected }) => expected) ?? [], set.logRank.expected);
    expectDigits(
      [compared?.chiSquare ?? null, compared?.p ?? null],
      [set.logRank.chiSquare, set.logRank.p],
    );
  });
});

const rated = made.sets.flatMap(({ rates, ...set }) =>
  rates === undefined ? [] : [{ ...set, rates }],
);
test.each(rated)('$name: rates, their exact intervals, and their regression', (set) => {
  const groups = tallies(set);
  const names = Object.keys(groups);
  const cells = Object.values(groups).map(({ events, exposure }, i) => ({
    values: names.map((_, k) => (k === 0 || k === i ? 1 : 0)),
    events,
    exposure,
  }));
  const { rates } = set;
  const fit = rateRegression(names, cells) ?? [];
  const spread = 1.959963984540054;
  expectDigits(
    fit.map(({ ratio }) => ratio),
    rates.log.map(Math.exp),
  );
  expectDigits(
    fit.map(({ upper }) => upper),
    rates.log.map((log, i) => Math.exp(log + spread * (rates.se[i] ?? 0))),
  );
  expectDigits(
    fit.map(({ p }) => p),
    rates.p,
  );
  for (const [i, tally] of Object.values(groups).entries()) {
    const { rate, lower, upper } = rateOf(tally.events, tally.exposure);
    expectDigits([rate, lower, upper], rates.exact[i] ?? []);
  }
});

test('remission on 6-mercaptopurine and placebo (Freireich EJ et al. Blood 1963;21:699-716; figures as in textbooks, from memory)', () => {
  const set = made.sets.find(({ name }) => name === 'remission');
  if (set === undefined) throw new Error('No such set');
  const { g1, g2 } = tallies(set);
  if (g1 === undefined || g2 === undefined) throw new Error('No such group');
  const curve = kaplanMeier(g1);
  const shown = curve.points
    .filter(({ events }) => events > 0)
    .map(({ time, atRisk, survival, se }) => [time, atRisk, survival.toFixed(4), se?.toFixed(4)]);
  expect(shown).toEqual([
    [6, 21, '0.8571', '0.0764'],
    [7, 17, '0.8067', '0.0869'],
    [10, 15, '0.7529', '0.0963'],
    [13, 12, '0.6902', '0.1068'],
    [16, 11, '0.6275', '0.1141'],
    [22, 7, '0.5378', '0.1282'],
    [23, 6, '0.4482', '0.1346'],
  ]);
  expect([curve.median.time, kaplanMeier(g2).median.time]).toEqual([23, 8]);
  const compared = logRank({ g1, g2 });
  expect([compared?.chiSquare.toFixed(2), compared?.df]).toEqual(['16.79', 1]);
  expect(compared?.groups.map(({ expected }) => expected.toFixed(2))).toEqual(['19.25', '10.75']);
});

test('the worked check set of the trade reference (computed there by hand)', () => {
  const tally = new Tally();
  for (const time of [0.2, 1.4, 3.5]) tally.add(time, true);
  for (const time of [0.5, 1, 2, 2, 3.1, 4, 5, 5, 5]) tally.add(time, false);
  const curve = kaplanMeier(tally);
  const shown = curve.points
    .filter(({ events }) => events > 0)
    .map(({ time, atRisk, survival, se }) => [time, atRisk, survival.toFixed(4), se?.toFixed(4)]);
  expect(shown).toEqual([
    [0.2, 12, '0.9167', '0.0798'],
    [1.4, 9, '0.8148', '0.1194'],
    [3.5, 5, '0.6519', '0.1743'],
  ]);
  const at = pointAt(curve, 3.5);
  expect([at?.lower?.toFixed(3), at?.upper?.toFixed(3)]).toEqual(['0.233', '0.882']);
  expect([0, 1.4, 2, 5, 6].map((time) => atRiskAt(curve, time))).toEqual([12, 9, 8, 3, 0]);
  const { exposure, rate } = rateOf(tally.events, tally.exposure);
  expect([exposure.toFixed(1), rate?.toFixed(3)]).toEqual(['32.7', '0.092']);
});

test('nothing to compare, nothing to say', () => {
  expect(logRank({ a: new Tally().add(1, true) })).toBeNull();
  expect(logRank({ a: new Tally().add(1, true), b: new Tally() })).toBeNull();
  expect(kaplanMeier(new Tally()).median).toEqual({ time: null, lower: null, upper: null });
  expect(rateOf(0, 0)).toEqual({ events: 0, exposure: 0, rate: null, lower: null, upper: null });
  const split = [
    { values: [1, 0], events: 4, exposure: 100 },
    { values: [1, 1], events: 0, exposure: 100 },
  ];
  expect(rateRegression(['all', 'other'], split)).toBeNull();
  expect(() => new Tally().add(-1, true)).toThrow(RangeError);
  expect(() => chiSquareP(1, 0)).toThrow(RangeError);
});
