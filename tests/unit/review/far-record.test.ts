import { expect, test } from 'vitest';
import { alignByUnit } from '../../../machines/review/align/by-unit.ts';
import { project } from '../../../machines/review/align/heuristic.ts';
import { align } from '../../../machines/review/align/search.ts';
import { planNet, Reviewer, traceOf } from '../../../machines/review/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { chairRecord } from '../../review/chair-record.ts';

/** Numbers from 0 to 1 that are the same in every run (Park SK, Miller KW. Commun ACM 1988;31:1192-1201, from memory). */
function* drawn(seed: number): Generator<number, never> {
  for (let state = seed; ;) {
    state = (state * 48_271) % 2_147_483_647;
    yield state / 2_147_483_647;
  }
}

function shuffled<T>(list: readonly T[], seed: number): readonly T[] {
  const draws = drawn(seed);
  return list
    .map((one) => ({ one, by: draws.next().value }))
    .toSorted((a, b) => a.by - b.by)
    .map(({ one }) => one);
}

const TEETH = ['46', '15', '36', '25'];
/** An appointment with so many crowns, done by the plan. */
function appointment(crowns: number) {
  const units = TEETH.slice(0, crowns).map((tooth, i) => ({
    ...(i % 2 === 0 ? ZIRCONIA : DISILICATE),
    tooth,
  }));
  return chairRecord(new Operatory(inventedCase(units)).until(null));
}

test('a record of three crowns in no order at all is aligned, and graded', () => {
  const { header, entries } = appointment(3);
  const reviewer = new Reviewer();
  const whole = reviewer.review('whole', { header, entries });
  expect(whole.alignment.cost).toBe(0);
  for (const mixed of [entries.toReversed(), shuffled(entries, 7)]) {
    const { alignment, deviations } = reviewer.review('mixed', { header, entries: mixed });
    const events = traceOf(header, mixed).activities.length;
    expect(alignment.cost).toBeGreaterThan(events / 2);
    expect(alignment.moves.filter(({ entry }) => entry !== null).length).toBe(events);
    expect(deviations.length).toBeGreaterThan(40);
  }
});

test('where the search over everything still finds the cheapest, it is the same, cut off or not', () => {
  const { header, entries } = appointment(2);
  const net = planNet(header.case, header.plan);
  const projected = project(net);
  const events = traceOf(header, entries).activities.map(({ label }) => label);
  for (let seed = 1; seed <= 12; seed += 1) {
    const draws = drawn(seed);
    const some = events.filter(() => draws.next().value > 0.15);
    const from = Math.floor(draws.next().value * (some.length - 6));
    const trace = some.toSpliced(from, 6, ...shuffled(some.slice(from, from + 6), seed));
    for (const end of ['final', 'anywhere'] as const) {
      const found = align(projected, trace, end);
      const byUnit = alignByUnit(net, trace, end);
      expect([seed, end, byUnit?.cost]).toEqual([seed, end, found.cost]);
    }
  }
});
