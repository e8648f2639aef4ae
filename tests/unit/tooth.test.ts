import { expect, test } from 'vitest';
import { readTooth, toothClass, toothName, toothSpoken } from '../../machines/form/index.ts';

test('a tooth is named and spoken digit by digit', () => {
  expect([toothName('46'), toothSpoken('46'), toothClass('46')]).toEqual([
    'lower right first molar',
    'four six',
    'molar',
  ]);
  expect([toothName('24'), toothSpoken('24'), toothClass('24')]).toEqual([
    'upper left first premolar',
    'two four',
    'premolar',
  ]);
  expect(['11', '12', '13', '14', '15', '16', '17', '18'].map(toothClass)).toEqual([
    'incisor',
    'incisor',
    'canine',
    'premolar',
    'premolar',
    'molar',
    'molar',
    'molar',
  ]);
});

test.each([
  ['46', '46'],
  ['four six', '46'],
  ['Tooth four-six', '46'],
  ['lower right first molar', '46'],
  ['tooth 24', '24'],
  ['upper left first premolar', '24'],
])('%s is read as %s', (said, tooth) => {
  expect(readTooth(said)).toBe(tooth);
});

test.each(['19', 'forty six', 'one nine', '', 'lower molar', '466'])('%s is no tooth', (said) => {
  expect(readTooth(said)).toBeNull();
});

test('what is no tooth has no class and keeps its text', () => {
  expect([toothClass('19'), toothName('19')]).toEqual([null, '19']);
});
