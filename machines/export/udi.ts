/** What a unique device identifier in GS1's form says. */
export interface Udi {
  /** GTIN, 14 digits, its check digit right. */
  readonly deviceIdentifier: string;
  readonly lot: string | null;
  /** ISO 8601 date. */
  readonly expires: string | null;
  readonly serial: string | null;
}

/** Whether a GTIN's last digit is its check digit: from the right, weights 3 and 1 in turn (GS1 General Specifications, 7.9). */
function checks(gtin: string): boolean {
  const sum = gtin
    .split('')
    .reduce((total, digit, i) => total + Number(digit) * (i % 2 === 0 ? 3 : 1), 0);
  return sum % 10 === 0;
}

/** YYMMDD as a date of this century; day 00 is the month's last (GS1 General Specifications, 3.4.7). */
function dateOf(six: string): string | null {
  const [year, month, day] = [six.slice(0, 2), six.slice(2, 4), six.slice(4, 6)].map(Number);
  if (year === undefined || month === undefined || day === undefined) return null;
  if (month < 1 || month > 12) return null;
  const leap = year % 4 === 0;
  const last = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 31;
  if (day > last) return null;
  const two = (value: number): string => String(value).padStart(2, '0');
  return `20${two(year)}-${two(month)}-${two(day === 0 ? last : day)}`;
}

/**
 * Reads a UDI in its human-readable form, application identifiers in brackets: (01) device
 * identifier, (10) lot, (17) expiry, (21) serial number, in any order; others are passed over.
 * Null when it is no such text, or its device identifier's check digit is wrong.
 */
export function readUdi(text: string): Udi | null {
  if (!/^(?:\(\d{2,4}\)[^()]+)+$/.test(text)) return null;
  const parts = new Map(
    [...text.matchAll(/\((\d{2,4})\)([^()]+)/g)].map(([, id = '', value = '']) => [
      id,
      value.trim(),
    ]),
  );
  const deviceIdentifier = parts.get('01') ?? '';
  if (!/^\d{14}$/.test(deviceIdentifier) || !checks(deviceIdentifier)) return null;
  const date = parts.get('17') ?? '';
  return {
    deviceIdentifier,
    lot: parts.get('10') ?? null,
    expires: /^\d{6}$/.test(date) ? dateOf(date) : null,
    serial: parts.get('21') ?? null,
  };
}
