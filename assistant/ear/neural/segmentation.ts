import { spellings } from './spelling.ts';
import { cutText } from './vocabulary.ts';

/** A place in the tokens of a word, cut as the vocabulary itself cuts it. */
export interface Segment {
  readonly next: Map<number, Segment>;
}

const segment = (): Segment => ({ next: new Map() });

/** Where no word goes on: after a stop or a figure. */
const NOWHERE: Segment = segment();

/** Figures and stops stand for themselves wherever the grammar lets them. */
const BESIDE_WORDS = /^[\d%.,!?-]+$/;

const withCapital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** The tokens of a word where it begins a sentence; none where a letter of it has none. */
export const beginningWith = (word: string): readonly number[] =>
  cut(withCapital(word), true) ?? [];

/** The ways a word of a grammar may be written, case by case, in pieces without a space. */
export function writtenWays(word: string): readonly string[] {
  const pieces = spellings(word).flatMap(({ text }) => text.split(' '));
  const cased = pieces.flatMap((text) => [
    text,
    withCapital(text),
    // "OK" and the like.
    ...(text.length <= 2 ? [text.toUpperCase()] : []),
  ]);
  return [...new Set(cased)];
}

/** Cutting takes a tenth of a millisecond, and the same words stand in many grammars. */
const cuts = new Map<string, readonly number[] | null>();

function cut(text: string, spaced: boolean): readonly number[] | null {
  const key = spaced ? ` ${text}` : text;
  let tokens = cuts.get(key);
  if (tokens === undefined) cuts.set(key, (tokens = cutText(text, spaced)));
  return tokens;
}

/** Nothing is added of a word with a letter that no token has: the model never writes it. */
function add(root: Segment, tokens: readonly number[] | null): void {
  if (tokens === null) return;
  let at = root;
  for (const token of tokens) {
    let next = at.next.get(token);
    if (next === undefined) at.next.set(token, (next = segment()));
    at = next;
  }
}

/**
 * How the words of a grammar are cut into tokens. The model writes a word in the one way in which
 * its vocabulary cuts it. The many other ways to spell it out of smaller tokens are next to
 * impossible where speech is clear, and crowd the search in noise, where nothing is.
 */
export class Segmentation {
  readonly start: Segment = segment();
  readonly #joined: Segment = segment();
  /** Written ways by their first letter, until a word with that letter may come. */
  readonly #spacedLater: Map<string, string[]>;
  readonly #joinedLater: Map<string, string[]>;
  readonly #holdsFigures: boolean;

  /** Of `words`, lower case, as a grammar spells them. */
  constructor(words: Iterable<string>) {
    const ways = [...words].flatMap(writtenWays);
    this.#holdsFigures = ways.some((text) => /^\d/.test(text));
    this.#spacedLater = byLetter(ways);
    this.#joinedLater = byLetter(ways);
  }

  /**
   * Where `token`, written `text` (lower case, a leading space for the start of a word), leads from
   * `at`; null when no word is cut so.
   */
  after(at: Segment, token: number, text: string): Segment | null {
    const spaced = text.startsWith(' ');
    const from = spaced ? this.start : at;
    if (spaced) this.#ready(text.charAt(1));
    if (at === this.#joined) this.#readyJoined(text.charAt(0));
    const next = from.next.get(token);
    if (next !== undefined) return next;
    if (text === '-') return this.#joined;
    // A figure after a space is two tokens, the first of them the space.
    const beside = text === ' ' ? this.#holdsFigures : BESIDE_WORDS.test(text);
    return beside ? NOWHERE : null;
  }

  #ready(letter: string): void {
    for (const text of take(this.#spacedLater, letter)) add(this.start, cut(text, true));
  }

  #readyJoined(letter: string): void {
    for (const text of take(this.#joinedLater, letter)) add(this.#joined, cut(text, false));
  }
}

function byLetter(ways: readonly string[]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const text of ways) {
    const letter = text.charAt(0).toLowerCase();
    const there = found.get(letter);
    if (there === undefined) found.set(letter, [text]);
    else there.push(text);
  }
  return found;
}

function take(later: Map<string, string[]>, letter: string): readonly string[] {
  const found = later.get(letter) ?? [];
  later.delete(letter);
  return found;
}
