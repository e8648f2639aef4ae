/** Device identifier, lot and expiry from a barcode, into whatever draft holds them. */
import { readGs1 } from '../../machines/form/index.ts';

interface Coded {
  readonly code: string;
  readonly gtin: string;
  readonly lot: string;
  readonly expires: string;
}

/** With this year two digits are always of this century: for when no day is given. */
const THIS_CENTURY = 2049;
/** Year of an ISO 8601 date; the century of two digits hangs on it. */
const yearOf = (on: string): number => Number(on.slice(0, 4)) || THIS_CENTURY;

/** The draft with the code taken in, and what it says of device, lot and expiry where it can be read. */
export function withCode<T extends Coded>(draft: T, code: string, on: string): T {
  const read = readGs1(code, yearOf(on));
  if (!read.ok) return { ...draft, code };
  return {
    ...draft,
    code,
    gtin: read.gtin ?? draft.gtin,
    lot: read.lot ?? draft.lot,
    expires: read.expires ?? draft.expires,
  };
}

/** What there is to say about a code: what is wrong with it, or nothing. */
export function codeHint(code: string, on: string): string {
  if (code.trim() === '') return 'Scan it, or type (17)…(10)…; fills in lot and expiry';
  const read = readGs1(code, yearOf(on));
  return read.ok ? 'Read' : `Not read: ${read.faults.join('; ')}`;
}
