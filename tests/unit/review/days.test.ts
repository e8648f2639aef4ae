import { expect, test } from 'vitest';
import { dayOf } from '../../../machines/review/days.ts';

test("days agree with the platform's calendar over four centuries", () => {
  const wrong: string[] = [];
  for (let day = -73_000; day < 73_000; day += 13) {
    const text = new Date(day * 86_400_000).toISOString();
    if (dayOf(text) !== day || dayOf(text.slice(0, 10)) !== day) wrong.push(text);
  }
  expect(wrong).toEqual([]);
});

test('what is no date has no day', () => {
  expect(
    ['', '2026', '2026-13-01', '2026-00-01', '2026-01-32', 'x2026-01-01', '2026-01-011'].map(dayOf),
  ).toEqual([null, null, null, null, null, null, null]);
});
