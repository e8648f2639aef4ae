import { expect, test } from 'vitest';
import { fromUniversal, universalOf } from '../../machines/form/index.ts';

/** ISO 3950 against the Universal system, upper then lower jaw, from right to left as the dentist looks (both from memory). */
const UPPER = '18 17 16 15 14 13 12 11 21 22 23 24 25 26 27 28'.split(' ');
const LOWER = '48 47 46 45 44 43 42 41 31 32 33 34 35 36 37 38'.split(' ');

test('both ways, all 32', () => {
  const upper = UPPER.map(universalOf);
  const lower = LOWER.map(universalOf);
  expect(upper).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
  expect(lower).toEqual([32, 31, 30, 29, 28, 27, 26, 25, 24, 23, 22, 21, 20, 19, 18, 17]);
  expect([...UPPER, ...LOWER].map((tooth) => fromUniversal(universalOf(tooth) ?? 0))).toEqual([
    ...UPPER,
    ...LOWER,
  ]);
});

test('outside both systems', () => {
  expect([universalOf('19'), universalOf('55'), fromUniversal(0), fromUniversal(33)]).toEqual([
    null,
    null,
    null,
    null,
  ]);
});
