import { describe, expect, it } from 'vitest';
import { keptUntil, pastKeeping } from '../../assistant/app/retention.ts';

describe('how long a record has to be kept', () => {
  it.each([
    ['2026-02-03T23:59:59.999Z', 10, '2036-02-03'],
    ['2028-02-29T09:00:00.000Z', 1, '2029-02-28'],
    ['2028-02-29T09:00:00.000Z', 4, '2032-02-29'],
    ['2096-02-29T09:00:00.000Z', 4, '2100-02-28'],
  ])('from %s on for %i years: until %s', (wall, years, day) => {
    expect(keptUntil(wall, years)).toBe(day);
  });

  it('is over the day after, and never where no years are set', () => {
    const cases = [
      { caseId: 'a', lastWall: '2026-02-03T09:00:00.000Z' },
      { caseId: 'b', lastWall: '2026-02-04T09:00:00.000Z' },
    ];
    expect(pastKeeping(cases, 10, '2036-02-03T23:59:59.999Z')).toEqual([]);
    expect(pastKeeping(cases, 10, '2036-02-04T00:00:00.000Z')).toEqual(['a']);
    expect(pastKeeping(cases, null, '2099-01-01T00:00:00.000Z')).toEqual([]);
  });
});
