import { digestText } from '../record/index.ts';

/** A JSON value as FHIR has it: no nulls, no empty lists or objects. */
export type Json = string | number | boolean | readonly Json[] | { readonly [name: string]: Json };
export type JsonObject = Readonly<Record<string, Json>>;

/** A resource of HL7 FHIR R4. */
export interface Resource extends JsonObject {
  readonly resourceType: string;
  readonly id: string;
}

/** ISO 3950, named as RFC 5141 names an ISO standard (FHIR names ISO 3166 the same way). */
export const ISO_3950 = 'urn:iso:std:iso:3950';
/** Steps of a plan, by the ids of Seatcall's vocabulary. A name of our own, made once. */
export const STEP_SYSTEM = 'urn:uuid:a214a3ad-207e-4543-ae4b-e165a41d7f3b';
export const UCUM = 'http://unitsofmeasure.org';

/** The member, or nothing where there is nothing to say: FHIR knows no empty values. */
export function some(name: string, value: Json | null | undefined): JsonObject {
  const none =
    value === null ||
    value === undefined ||
    value === '' ||
    (Array.isArray(value) && value.length === 0);
  return none ? {} : { [name]: value };
}

/** A UUID (version 8 of RFC 9562) made of a name's SHA-256, so that the same record gives the same file. */
export function uuidOf(name: string): string {
  const hex = digestText(name);
  const variant = '89ab'[Number.parseInt(hex.slice(16, 17), 16) % 4] ?? '8';
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `8${hex.slice(13, 16)}`,
    `${variant}${hex.slice(17, 20)}`,
    hex.slice(20, 32),
  ].join('-');
}

const BASE64 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes in base64 (RFC 4648, section 4). */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(i, i + 3);
    const bits = (a << 16) | (b << 8) | c;
    const left = bytes.length - i;
    text += `${BASE64[bits >> 18]}${BASE64[(bits >> 12) & 63]}`;
    text += left > 1 ? `${BASE64[(bits >> 6) & 63]}` : '=';
    text += left > 2 ? `${BASE64[bits & 63]}` : '=';
  }
  return text;
}

/** A SHA-256 (64 hex digits) as a name of what it is the sum of: RFC 6920. */
export function nameOfDigest(hex: string): string {
  const bytes = Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  const url = base64(bytes).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
  return `ni:///sha-256;${url}`;
}

/** An identifier that is a URI. */
export const uriIdentifier = (value: string): JsonObject => ({
  system: 'urn:ietf:rfc:3986',
  value,
});

export const text = (words: string): JsonObject => ({ text: words });

export const reference = (id: string): JsonObject => ({ reference: `urn:uuid:${id}` });

/** Marks a resource of an invented case as test data. */
export const metaOf = (invented: boolean): JsonObject =>
  invented
    ? {
        meta: {
          security: [
            {
              system: 'http://terminology.hl7.org/CodeSystem/v3-ActReason',
              code: 'HTEST',
              display: 'test health data',
            },
          ],
        },
      }
    : {};
