import { describe, expect, test } from 'vitest';
import { checkDigit, fullYear, gs1Date, readGs1 } from '../../machines/form/gs1.ts';

// GS1 General Specifications: elements 01, 10, 17, 21 and the day 00 were read; prefixes, separator and
// century from memory. The lots and serials are invented.
const GS = '\u001D';

test('check digit: 0950110153000 gives 3 (worked by hand: weights 3 and 1 from the right)', () => {
  expect(checkDigit('0950110153000')).toBe(3);
  expect(checkDigit('629104150021')).toBe(3);
});

describe('dates, YYMMDD', () => {
  test('day 00 is the last day of its month, leap years too', () => {
    expect(['270200', '280200', '300400', '301200'].map((date) => gs1Date(date, 2026))).toEqual([
      '2027-02-28',
      '2028-02-29',
      '2030-04-30',
      '2030-12-31',
    ]);
  });
  test('no such day', () => {
    expect(['271301', '270230', '270001', '2702', '27O201'].map((d) => gs1Date(d, 2026))).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
  });
  test('century: 51 or more ahead is the one before, 50 or more behind the next', () => {
    expect([fullYear(77, 2026), fullYear(76, 2026), fullYear(26, 2026)]).toEqual([
      1977, 2076, 2026,
    ]);
    expect([fullYear(0, 2049), fullYear(0, 2050), fullYear(49, 2099)]).toEqual([2000, 2100, 2149]);
  });
});

describe('element strings', () => {
  const whole = {
    ok: true,
    gtin: '09501101530003',
    lot: 'AB-12',
    serial: 'S7',
    expires: '2028-01-31',
    produced: null,
  };
  test('from a scanner: prefix, fixed elements without, variable ones with a separator', () => {
    const text = `]d201095011015300031728010010AB-12${GS}21S7`;
    expect(readGs1(text, 2026)).toEqual(whole);
    expect(readGs1(`${GS}010950110153000310AB-12${GS}1728010021S7`, 2026)).toEqual(whole);
  });
  test('as printed, with parentheses', () => {
    expect(readGs1('(01)09501101530003(17)280100(10)AB-12(21)S7', 2026)).toEqual(whole);
  });
  test('every fault is told, and nothing is read of a faulty code', () => {
    expect(readGs1('(01)09501101530004(17)281301', 2026)).toEqual({
      ok: false,
      faults: ['the check digit of (01) is wrong: scan it again', '(17) is no date'],
    });
    expect(readGs1('+A123', 2026)).toEqual({
      ok: false,
      faults: ['this is a HIBC code, of another agency: type lot and date'],
    });
    expect(readGs1('0109501101', 2026)).toEqual({
      ok: false,
      faults: ['(01) is 8 characters long'],
    });
    expect(readGs1(`10${'A'.repeat(21)}`, 2026).ok).toBe(false);
    expect(readGs1('', 2026).ok).toBe(false);
    expect(readGs1('9912', 2026).ok).toBe(false);
  });
});
