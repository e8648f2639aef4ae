import { TEETH } from '../contract/index.ts';

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const QUADRANTS = ['upper right', 'upper left', 'lower left', 'lower right'];
const PLACES = [
  'central incisor',
  'lateral incisor',
  'canine',
  'first premolar',
  'second premolar',
  'first molar',
  'second molar',
  'third molar',
];

export type ToothClass = 'incisor' | 'canine' | 'premolar' | 'molar';

/** Quadrant 1 to 4 and place 1 to 8 of an ISO 3950 code; null when it is not one. */
const split = (tooth: string): { quadrant: number; place: number } | null =>
  TEETH.includes(tooth) ? { quadrant: Number(tooth[0]), place: Number(tooth[1]) } : null;

/** The tooth's name, as 'lower right first molar'; the text itself when it is no ISO 3950 code. */
export const toothName = (tooth: string): string => {
  const at = split(tooth);
  if (at === null) return tooth;
  return `${QUADRANTS[at.quadrant - 1]} ${PLACES[at.place - 1]}`;
};

/** The code said digit by digit, as 'four six'. */
export const toothSpoken = (tooth: string): string =>
  Array.from(tooth, (digit) => DIGITS[Number(digit)] ?? digit).join(' ');

/** The kind of tooth; null when the text is no ISO 3950 code. */
export const toothClass = (tooth: string): ToothClass | null => {
  const at = split(tooth);
  if (at === null) return null;
  if (at.place <= 2) return 'incisor';
  if (at.place === 3) return 'canine';
  return at.place <= 5 ? 'premolar' : 'molar';
};

/**
 * The Universal number, 1 to 32, of an ISO 3950 permanent tooth; null when the text is none.
 * Quadrants run 9 - n, 8 + n, 25 - n, 24 + n for place n.
 */
export const universalOf = (tooth: string): number | null => {
  const at = split(tooth);
  if (at === null) return null;
  const byQuadrant = [9 - at.place, 8 + at.place, 25 - at.place, 24 + at.place];
  return byQuadrant[at.quadrant - 1] ?? null;
};

/** The ISO 3950 code of a Universal number; null outside 1 to 32. */
export const fromUniversal = (universal: number): string | null =>
  TEETH.find((tooth) => universalOf(tooth) === universal) ?? null;

/** Palmer corner of a quadrant, as a patient is looked at: upper right, upper left, lower left, lower right. */
const CORNERS = ['\u2518', '\u2514', '\u250C', '\u2510'];
/** The same corners as Unicode has them for dentistry: read, not written, since few fonts draw them. */
const DENTAL_CORNERS = ['\u23CC', '\u23BF', '\u23BE', '\u23CB'];
const LEFT_OF: readonly boolean[] = [true, false, false, true];

const palmer = (quadrant: number, mark: string): string => {
  const corner = CORNERS[quadrant - 1] ?? '';
  return LEFT_OF[quadrant - 1] === true ? `${mark}${corner}` : `${corner}${mark}`;
};

/** Palmer notation of an ISO 3950 permanent tooth, place and corner; null when the text is none. */
export const palmerOf = (tooth: string): string | null => {
  const at = split(tooth);
  return at === null ? null : palmer(at.quadrant, String(at.place));
};

/** The ISO 3950 code of a permanent tooth in Palmer notation; null for anything else. */
export const fromPalmer = (text: string): string | null => {
  const drawn = DENTAL_CORNERS.reduce(
    (all, corner, at) => all.replace(corner, CORNERS[at] ?? corner),
    text,
  );
  return TEETH.find((tooth) => palmerOf(tooth) === drawn) ?? null;
};

/** ISO 3950 primary teeth, as their two digits. */
const PRIMARY = [5, 6, 7, 8].flatMap((quadrant) =>
  [1, 2, 3, 4, 5].map((place) => `${quadrant}${place}`),
);

/**
 * The Universal letter, A to T, of an ISO 3950 primary tooth; null when the text is none. Its
 * index, A as 1, runs 6 - n, 5 + n, 16 - n, 15 + n for place n. Palmer letters are others: A to E
 * from the middle in every quadrant.
 */
export const primaryLetterOf = (tooth: string): string | null => {
  if (!PRIMARY.includes(tooth)) return null;
  const place = Number(tooth.charAt(1));
  const index = [6 - place, 5 + place, 16 - place, 15 + place][Number(tooth.charAt(0)) - 5] ?? 0;
  return String.fromCodePoint(64 + index);
};

const PRIMARY_PLACES = [
  'central incisor',
  'lateral incisor',
  'canine',
  'first molar',
  'second molar',
];

/** A primary tooth's name, as 'upper right primary second molar'; null when the text is none. */
export const primaryName = (tooth: string): string | null => {
  if (!PRIMARY.includes(tooth)) return null;
  const quadrant = QUADRANTS[Number(tooth.charAt(0)) - 5] ?? '';
  return `${quadrant} primary ${PRIMARY_PLACES[Number(tooth.charAt(1)) - 1] ?? ''}`;
};

/** The ISO 3950 code of a primary tooth's Universal letter; null for anything else. */
export const fromPrimaryLetter = (letter: string): string | null =>
  PRIMARY.find((tooth) => primaryLetterOf(tooth) === letter.toUpperCase()) ?? null;

const SAID: ReadonlyMap<string, string> = new Map(
  TEETH.flatMap((tooth) => [
    [tooth, tooth],
    [toothSpoken(tooth), tooth],
    [toothName(tooth), tooth],
  ]),
);

/**
 * The ISO 3950 code of what a person says or writes: '46', 'four six', 'four-six',
 * 'tooth four six', 'lower right first molar'; null for anything else.
 */
export const readTooth = (said: string): string | null => {
  const plain = said
    .toLowerCase()
    .replaceAll(/[-.,]/g, ' ')
    .replace(/^\s*tooth\s+/, '')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return SAID.get(plain) ?? null;
};
