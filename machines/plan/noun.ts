import type { UnitKind } from '../contract/index.ts';

/** What the unit is called at the chair. */
export const NOUN = {
  crown: 'crown',
  bridge: 'bridge',
  veneer: 'veneer',
  inlay: 'inlay',
  onlay: 'onlay',
  'resin-bonded-bridge': 'bridge',
  'implant-crown': 'crown',
} as const satisfies Readonly<Record<UnitKind, string>>;

/** The kind in full, for headings. */
export const KIND_NAME = {
  crown: 'crown',
  bridge: 'bridge',
  veneer: 'veneer',
  inlay: 'inlay',
  onlay: 'onlay',
  'resin-bonded-bridge': 'resin-bonded bridge',
  'implant-crown': 'implant crown',
} as const satisfies Readonly<Record<UnitKind, string>>;

/** The kind in full, as a heading begins. */
export const kindTitle = (kind: UnitKind): string =>
  `${KIND_NAME[kind].charAt(0).toUpperCase()}${KIND_NAME[kind].slice(1)}`;

/**
 * A card's text for this kind of unit: cards are written for a crown, and say so wherever the
 * word stands for the restoration itself.
 */
export const forKind = (text: string, kind: UnitKind): string =>
  kind === 'crown' || kind === 'implant-crown'
    ? text
    : text.replaceAll(/\b(crown)(s?)\b/giu, (_, word: string, plural: string) => {
        const noun = `${NOUN[kind]}${plural}`;
        return word.startsWith('C') ? `${noun.charAt(0).toUpperCase()}${noun.slice(1)}` : noun;
      });

/** The kind in full with its article, as 'an implant crown'. */
export const aKind = (kind: UnitKind): string =>
  `${/^[aeiou]/.test(KIND_NAME[kind]) ? 'an' : 'a'} ${KIND_NAME[kind]}`;
