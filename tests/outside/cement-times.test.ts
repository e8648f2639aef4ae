import { describe, expect, test } from 'vitest';
import { atTemperature } from '../../machines/form/index.ts';
import { CEMENT_TABLE, CLOCK } from '../../machines/trade/index.ts';

const from23 = { q10: CLOCK.q10.target, referenceC: CLOCK.reference.value };

test('180 s at 23 degrees C: worked numbers, planning rule by judgement, Q10 2.0', () => {
  const found = [18, 23, 28, 37].map((celsius) => Math.round(atTemperature(180, celsius, from23)));
  expect(found).toEqual([255, 180, 127, 68]);
});

test('Q10 1.6 to 2.5 gives factors of 0.52 to 0.28 from 23 to 37 degrees C', () => {
  const factor = (q10: number): number =>
    Number(atTemperature(1, 37, { q10, referenceC: 23 }).toFixed(2));
  expect([factor(CLOCK.q10.min), factor(CLOCK.q10.max)]).toEqual([0.52, 0.28]);
});

test('warmer is shorter: Oper Dent 2015;40:E222-E229, dual-cure cements at 22 and 37 degrees C (direction only)', () => {
  expect(atTemperature(180, 37, from23)).toBeLessThan(atTemperature(180, 22, from23));
});

describe('limits of the standards, from memory', () => {
  test('ISO 4049:2019, dual cure resin: working 60 s at least, setting 10 min at most', () => {
    const { working, setting } = CEMENT_TABLE['adhesive-resin-dual'];
    expect(working.min).toBeGreaterThanOrEqual(CLOCK.leastWorkingResin.value);
    expect(setting.max).toBeLessThanOrEqual(CLOCK.mostSettingResin.value);
    expect([CLOCK.leastWorkingResin.value, CLOCK.mostSettingResin.value]).toEqual([60, 600]);
  });
  test('ISO 9917-2:2017, resin-modified luting: working 90 s at least', () => {
    const { working } = CEMENT_TABLE['resin-modified-glass-ionomer'];
    expect(working.min).toBeGreaterThanOrEqual(CLOCK.leastWorkingModified.value);
    expect(CLOCK.leastWorkingModified.value).toBe(90);
  });
});
