/** A practice's own words for something that can already be said. */
import { type Phrase, PHRASES } from './table.ts';

/** `words` mean what the built-in phrase `means` does. */
export interface OwnPhrase {
  readonly words: string;
  readonly means: string;
}

/** A practice needs a few; each makes the others a little harder to hear. */
export const MOST_OWN = 20;
const WORD = /^[a-z]+(?:'[a-z]+)?$/u;
/** Sounds that are one for the ear, or none at the end; spelling is all that is known of own words. */
const SOUNDS: readonly (readonly [RegExp, string])[] = [
  [/ph/gu, 'f'],
  [/ck|q|c(?![eiy])/gu, 'k'],
  [/c(?=[eiy])|z/gu, 's'],
  [/gh(?=t|\b)/gu, ''],
  [/([a-z])\1/gu, '$1'],
  [/e\b/gu, ''],
  [/[aeiouy]+/gu, 'a'],
  [/'/gu, ''],
];

/** A spelling brought down to how it roughly sounds. */
function sounds(words: string): string {
  return SOUNDS.reduce((text, [from, to]) => text.replaceAll(from, to), words).replaceAll(' ', '');
}

/** Edits (insert, drop, change one letter) that make one text of another. Levenshtein 1966. */
function edits(one: string, other: string): number {
  let row = Array.from({ length: other.length + 1 }, (_, at) => at);
  Array.from(one).forEach((letter, i) => {
    const next = [i + 1];
    Array.from(other).forEach((against, j) => {
      const changed = (row[j] ?? 0) + (letter === against ? 0 : 1);
      next.push(Math.min(changed, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    });
    row = next;
  });
  return row.at(-1) ?? 0;
}

/** One sound apart is what a recogniser confuses in a loud room. */
const APART = 2;

const startsWith = (text: string, beginning: string): boolean => text.startsWith(`${beginning} `);

/** The built-in phrase that has this text; undefined when none has. */
export const phraseOf = (text: string): Phrase | undefined =>
  PHRASES.find(({ texts }) => texts.includes(text));

/** As the ear gives words: lower case, single spaces, straight apostrophes. */
export const tidyWords = (text: string): string =>
  text.trim().toLowerCase().replaceAll('’', "'").replaceAll(/\s+/gu, ' ');

/**
 * Why a practice's own phrase does not serve; null when it does. `others` are its other own
 * phrases; `callSign` is the word that addresses Seatcall.
 */
export function ownPhraseProblem(
  own: OwnPhrase,
  others: readonly OwnPhrase[],
  callSign: string,
): string | null {
  const { words, means } = own;
  const meant = phraseOf(means);
  if (meant === undefined)
    return `Nothing is said as “${means}”; choose what it means from the list.`;
  const each = words.split(' ');
  if (!each.every((word) => WORD.test(word))) {
    return 'Letters only, as it is said: numbers are written as words.';
  }
  if (each.length < 2 || each.length > 6) return 'Two to six words: one alone is easily misheard.';
  if (each.includes('stop')) return '“Stop” always stops; say it another way.';
  if (each.includes(callSign)) return `“${callSign}” addresses Seatcall; leave it out.`;
  if (meant.texts.includes(words)) return 'That is understood already.';
  const foreign = [
    ...PHRASES.filter((phrase) => phrase !== meant).flatMap(({ texts }) => texts),
    ...others.filter((other) => phraseOf(other.means) !== meant).map((other) => other.words),
  ];
  const begun = foreign.find((text) => startsWith(text, words) || startsWith(words, text));
  if (begun !== undefined) return `It begins like “${begun}”, which means something else.`;
  const key = sounds(words);
  const close = foreign.find((text) => edits(sounds(text), key) < APART);
  if (close !== undefined) return `It sounds too much like “${close}”, which means something else.`;
  return null;
}

/** The built-in words that own words stand for; the words themselves when they are none of them. */
export const meaningOf = (words: string, own: readonly OwnPhrase[]): string =>
  own.find((one) => one.words === words)?.means ?? words;

/** A phrase with the practice's own words for it beside the built-in ones. */
export function withOwn(phrase: Phrase, own: readonly OwnPhrase[]): Phrase {
  const added = own.filter(({ means }) => phrase.texts.includes(means)).map(({ words }) => words);
  return added.length === 0 ? phrase : { ...phrase, texts: [...phrase.texts, ...added] };
}
