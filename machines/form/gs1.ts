/** A GS1 data carrier's text read, or every fault it has. */
export type Gs1 =
  | {
      readonly ok: true;
      /** GTIN, 14 digits; null when there is none. */
      readonly gtin: string | null;
      readonly lot: string | null;
      readonly serial: string | null;
      /** ISO 8601 dates; a day of 00 is the last of its month. */
      readonly expires: string | null;
      readonly produced: string | null;
    }
  | { readonly ok: false; readonly faults: readonly string[] };

interface Field {
  /** Digits after the identifier, or most characters where it ends at a separator. */
  readonly length: number;
  readonly fixed: boolean;
}

/** Application identifiers of medical devices and what travels with them (GS1 General Specifications, from memory but for 01, 10, 17, 21, 240, 242). */
const FIELDS: Readonly<Record<string, Field>> = {
  '00': { length: 18, fixed: true },
  '01': { length: 14, fixed: true },
  '02': { length: 14, fixed: true },
  '10': { length: 20, fixed: false },
  '11': { length: 6, fixed: true },
  '12': { length: 6, fixed: true },
  '13': { length: 6, fixed: true },
  '15': { length: 6, fixed: true },
  '16': { length: 6, fixed: true },
  '17': { length: 6, fixed: true },
  '20': { length: 2, fixed: true },
  '21': { length: 20, fixed: false },
  '22': { length: 20, fixed: false },
  '30': { length: 8, fixed: false },
  '37': { length: 8, fixed: false },
  '240': { length: 30, fixed: false },
  '241': { length: 30, fixed: false },
  '242': { length: 6, fixed: false },
};

const SEPARATOR = '\u001D';

/** The text without a separator before it. */
const unseparated = (text: string): string =>
  text.startsWith(SEPARATOR) ? text.slice(SEPARATOR.length) : text;

/** The check digit of the digits before it: from the right, weights 3 and 1 in turn. */
export const checkDigit = (digits: string): number => {
  const sum = Array.from(digits)
    .toReversed()
    .reduce((total, digit, index) => total + Number(digit) * (index % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
};

const daysIn = (year: number, month: number): number => {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
};

/** The full year of two digits: within 49 years back and 50 ahead of `year`. */
export const fullYear = (twoDigits: number, year: number): number => {
  const century = year - (year % 100);
  const apart = twoDigits - (year % 100);
  if (apart >= 51) return century - 100 + twoDigits;
  return apart <= -50 ? century + 100 + twoDigits : century + twoDigits;
};

/** YYMMDD as an ISO 8601 date; null where there is no such day. Day 00 is the last of the month. */
export const gs1Date = (yymmdd: string, year: number): string | null => {
  if (!/^\d{6}$/u.test(yymmdd)) return null;
  const full = fullYear(Number(yymmdd.slice(0, 2)), year);
  const month = Number(yymmdd.slice(2, 4));
  const day = Number(yymmdd.slice(4, 6)) || daysIn(full, month);
  if (day === 0 || day > daysIn(full, month)) return null;
  return `${full}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
};

type Read = readonly (readonly [ai: string, value: string])[];

const identifierAt = (text: string): string | null =>
  [3, 2].map((length) => text.slice(0, length)).find((ai) => Object.hasOwn(FIELDS, ai)) ?? null;

/** Element by element; a string is the fault that stopped it. */
const elements = (text: string): Read | string => {
  const read: [string, string][] = [];
  let rest = text;
  while (rest !== '') {
    const ai = identifierAt(rest);
    const field = ai === null ? undefined : FIELDS[ai];
    if (ai === null || field === undefined) return `"${rest.slice(0, 4)}" begins no known element`;
    const after = rest.slice(ai.length);
    const end = after.indexOf(SEPARATOR);
    const length = field.fixed ? field.length : end === -1 ? after.length : end;
    const value = after.slice(0, length);
    if (field.fixed ? value.length < length : value === '' || value.length > field.length) {
      return `(${ai}) is ${value.length} characters long`;
    }
    read.push([ai, value]);
    rest = unseparated(after.slice(length));
  }
  return read;
};

/** "(01)...(17)..." as people read it, or the string a scanner gives. */
const plain = (text: string): Read | string => {
  const bare = unseparated(text.trim().replace(/^\](?:C1|d2|Q3|e0)/u, ''));
  if (bare.startsWith('+')) return 'this is a HIBC code, of another agency: type lot and date';
  if (!bare.startsWith('(')) return elements(bare);
  const pairs = [...bare.matchAll(/\((\d{2,4})\)([^(]*)/gu)].map(
    ([, ai = '', value = '']) => [ai, value.trim()] as const,
  );
  const wrong = pairs.find(([ai, value]) => {
    const field = FIELDS[ai];
    if (field === undefined || value === '') return true;
    return field.fixed ? value.length !== field.length : value.length > field.length;
  });
  return wrong === undefined ? pairs : `(${wrong[0]}) cannot be read`;
};

/**
 * Reads a GS1 element string, from a scanner (symbology prefix and separators, ASCII 29) or as
 * printed with parentheses. `year` is the current one: it decides the century of two digits.
 * Never throws; a wrong check digit or an impossible date is a fault.
 */
export const readGs1 = (text: string, year: number): Gs1 => {
  const read = plain(text);
  if (typeof read === 'string') return { ok: false, faults: [read] };
  const of = (ai: string): string | null => read.find(([id]) => id === ai)?.[1] ?? null;
  const gtin = of('01');
  const dated = (ai: string): string | null => {
    const value = of(ai);
    return value === null ? null : gs1Date(value, year);
  };
  const faults = [
    ...(read.length === 0 ? ['nothing to read'] : []),
    ...(gtin !== null &&
    (!/^\d{14}$/u.test(gtin) || checkDigit(gtin.slice(0, 13)) !== Number(gtin.at(-1)))
      ? ['the check digit of (01) is wrong: scan it again']
      : []),
    ...['11', '17'].flatMap((ai) =>
      of(ai) !== null && dated(ai) === null ? [`(${ai}) is no date`] : [],
    ),
  ];
  if (faults.length > 0) return { ok: false, faults };
  return {
    ok: true,
    gtin,
    lot: of('10'),
    serial: of('21'),
    expires: dated('17'),
    produced: dated('11'),
  };
};
