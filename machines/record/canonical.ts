import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import serialize from 'canonicalize';

/**
 * A value as RFC 8785 (JSON Canonicalization Scheme) spells it: keys sorted by UTF-16 code unit,
 * numbers as ECMAScript prints them, no white space. Members that are undefined are left out.
 * @throws Error for what JSON cannot say: undefined, NaN, infinities, lone surrogates, cycles.
 */
export function canonical(value: unknown): string {
  const text = serialize(value);
  if (text === undefined) throw new Error('A value without a JSON form has no canonical form.');
  return text;
}

/** SHA-256 (FIPS 180-4) of the UTF-8 bytes of `text`: 64 lower-case hex digits. */
export function digestText(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** SHA-256 of {@link canonical}`(value)`: 64 lower-case hex digits. Throws as that does. */
export function digest(value: unknown): string {
  return digestText(canonical(value));
}
