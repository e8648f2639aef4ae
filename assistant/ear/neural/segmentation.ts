import tokenizer from 'llama-tokenizer-js';
import { spellings } from './spelling.ts';

/** A place in the tokens of a word, cut as the vocabulary itself cuts it. */
export interface Segment {
  readonly next: Map<number, Segment>;
}

const segment = (): Segment => ({ next: new Map() });

/** Where no word goes on: after a stop or a figure. */
const NOWHERE: Segment = segment();

/** Figures and stops stand for themselves wherever the grammar lets them. */
const BESIDE_WORDS = /^[\d%.,!?-]+$/;

interface Cuts {
  /** Token sequences after a space, and those after a hyphen, case by case. */
  readonly spaced: readonly (readonly number[])[];
  readonly joined: readonly (readonly number[])[];
}

/** The same words stand in many grammars. */
const known = new Map<string, Cuts>();

function cutsOf(word: string): Cuts {
  let cuts = known.get(word);
  if (cuts === undefined) {
    const written = spellings(word).flatMap(({ text }) => text.split(' '));
    const cased = written.flatMap((text) => [
      text,
      `${text.charAt(0).toUpperCase()}${text.slice(1)}`,
      // "OK" and the like.
      ...(text.length <= 2 ? [text.toUpperCase()] : []),
    ]);
    const texts = [...new Set(cased)];
    cuts = {
      spaced: texts.map((text) => tokenizer.encode(text, false, true)),
      joined: texts.map((text) => tokenizer.encode(text, false, false)),
    };
    known.set(word, cuts);
  }
  return cuts;
}

function add(root: Segment, tokens: readonly number[]): void {
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

  /** Of `words`, lower case, as a grammar spells them. */
  constructor(words: Iterable<string>) {
    for (const word of words) {
      const { spaced, joined } = cutsOf(word);
      for (const tokens of spaced) add(this.start, tokens);
      for (const tokens of joined) add(this.#joined, tokens);
    }
  }

  /**
   * Where `token`, written `text` (lower case, a leading space for the start of a word), leads from
   * `at`; null when no word is cut so.
   */
  after(at: Segment, token: number, text: string): Segment | null {
    const next = (text.startsWith(' ') ? this.start : at).next.get(token);
    if (next !== undefined) return next;
    if (text === '-') return this.#joined;
    return BESIDE_WORDS.test(text) ? NOWHERE : null;
  }
}
