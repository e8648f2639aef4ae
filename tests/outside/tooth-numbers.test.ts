import { expect, test } from 'vitest';
import {
  fromPalmer,
  fromPrimaryLetter,
  fromUniversal,
  palmerOf,
  primaryLetterOf,
  primaryName,
  readTooth,
  toothName,
  toothSpoken,
  universalOf,
} from '../../machines/form/index.ts';

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

test('Palmer: place and corner, both ways (drawn with box corners; the dentistry symbols U+23CC, U+23BF, U+23BE, U+23CB are read too)', () => {
  expect(UPPER.map(palmerOf).join(' ')).toBe(
    '8\u2518 7\u2518 6\u2518 5\u2518 4\u2518 3\u2518 2\u2518 1\u2518 \u25141 \u25142 \u25143 \u25144 \u25145 \u25146 \u25147 \u25148',
  );
  expect(LOWER.map(palmerOf).join(' ')).toBe(
    '8\u2510 7\u2510 6\u2510 5\u2510 4\u2510 3\u2510 2\u2510 1\u2510 \u250C1 \u250C2 \u250C3 \u250C4 \u250C5 \u250C6 \u250C7 \u250C8',
  );
  expect([...UPPER, ...LOWER].map((tooth) => fromPalmer(palmerOf(tooth) ?? ''))).toEqual([
    ...UPPER,
    ...LOWER,
  ]);
  expect(['6\u23CC', '\u23BF6', '\u23BE6', '6\u23CB'].map(fromPalmer)).toEqual([
    '16',
    '26',
    '36',
    '46',
  ]);
  expect([palmerOf('51'), fromPalmer('9\u2518'), fromPalmer('6')]).toEqual([null, null, null]);
});

// The reference: 51 to 55 are E to A, 71 to 75 O to K in the Universal system; a permanent tooth has no such name.
test('primary teeth by name', () => {
  expect(['55', '61', '73', '84', '46'].map(primaryName)).toEqual([
    'upper right primary second molar',
    'upper left primary central incisor',
    'lower left primary canine',
    'lower right primary first molar',
    null,
  ]);
});

test('primary teeth: A to J above, K to T below, both ways (from memory)', () => {
  const above = '55 54 53 52 51 61 62 63 64 65'.split(' ');
  const below = '75 74 73 72 71 81 82 83 84 85'.split(' ');
  expect(above.map(primaryLetterOf).join('')).toBe('ABCDEFGHIJ');
  expect(below.map(primaryLetterOf).join('')).toBe('KLMNOPQRST');
  expect(
    [...above, ...below].map((tooth) => fromPrimaryLetter(primaryLetterOf(tooth) ?? '')),
  ).toEqual([...above, ...below]);
  expect([primaryLetterOf('46'), primaryLetterOf('56'), fromPrimaryLetter('U')]).toEqual([
    null,
    null,
    null,
  ]);
});

test('bare integers that are a tooth in both systems are 11 to 18, 21 to 28, 31 and 32; aloud digits and name say which', () => {
  const both = [...UPPER, ...LOWER]
    .map(Number)
    .filter((number) => fromUniversal(number) !== null)
    .toSorted((one, other) => one - other);
  expect(both).toEqual([11, 12, 13, 14, 15, 16, 17, 18, 21, 22, 23, 24, 25, 26, 27, 28, 31, 32]);
  for (const tooth of [...UPPER, ...LOWER]) {
    expect(readTooth(toothSpoken(tooth))).toBe(tooth);
    expect(readTooth(toothName(tooth))).toBe(tooth);
  }
});
