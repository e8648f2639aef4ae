import tokenizer from 'llama-tokenizer-js';
import { KEPT_BITS } from './kept-tokens.ts';

/**
 * The tokenizer's numbers of the tokens that the recogniser knows, ascending. Everywhere else a
 * token is its place in this list, as it is in the trimmed decoder (`few-tokens.ts`).
 */
export const KEPT: readonly number[] = numbersOf(atob(KEPT_BITS));

/** The places of the bits set, each character eight of them, least first. */
function numbersOf(bytes: string): readonly number[] {
  return Array.from({ length: bytes.length * 8 }, (_, place) => place).filter(
    (place) => (bytes.charCodeAt(place >> 3) >> (place & 7)) % 2 === 1,
  );
}

const places = new Map(KEPT.map((token, place) => [token, place]));

/** Token that starts every transcript. */
export const BEGIN_TOKEN = placeOf(1);
/** Token that ends every transcript. */
export const END_TOKEN = placeOf(2);
/** The tokenizer's numbers below this stand for no text. */
const FIRST_TEXT = 3;

function placeOf(token: number): number {
  const place = places.get(token);
  if (place === undefined) throw new Error(`the kept tokens lack number ${token}`);
  return place;
}

/** What a token is in writing, `▁` for a space. */
export const textOf = (token: number): string => tokenizer.vocabById[KEPT[token] ?? 0] ?? '';

/** A prefix tree of the vocabulary's texts, lower case, `▁` read as a space. */
export interface VocabularyNode {
  readonly children: Map<string, VocabularyNode>;
  /** Tokens whose text ends here; several where they differ only by case. */
  readonly tokens: number[];
}

let cached: VocabularyNode | null = null;

/** The vocabulary as a tree, without the tokens that stand for no text; built once. */
export function vocabularyTree(): VocabularyNode {
  if (cached !== null) return cached;
  const root: VocabularyNode = { children: new Map(), tokens: [] };
  KEPT.forEach((number, token) => {
    if (number < FIRST_TEXT) return;
    let node = root;
    for (const char of textOf(token).replaceAll('▁', ' ').toLowerCase()) {
      let child = node.children.get(char);
      if (child === undefined)
        node.children.set(char, (child = { children: new Map(), tokens: [] }));
      node = child;
    }
    node.tokens.push(token);
  });
  return (cached = root);
}

let byText: ReadonlyMap<string, number> | null = null;

/**
 * The tokens that the vocabulary cuts a text into, `spaced` where a word begins with it. What is
 * cut into a token that is not kept is cut into the longest that are; null where a letter is of
 * none.
 */
export function cutText(text: string, spaced: boolean): readonly number[] | null {
  const cut: number[] = [];
  for (const token of tokenizer.encode(text, false, spaced)) {
    const place = places.get(token);
    const pieces = place === undefined ? pieced(tokenizer.vocabById[token] ?? '') : [place];
    if (pieces === null) return null;
    cut.push(...pieces);
  }
  return cut;
}

function pieced(text: string): readonly number[] | null {
  byText ??= new Map(KEPT.map((_, token) => [textOf(token), token]));
  const pieces: number[] = [];
  for (let at = 0; at < text.length;) {
    let length = text.length - at;
    while (length > 0 && !byText.has(text.slice(at, at + length))) length--;
    const piece = byText.get(text.slice(at, at + length));
    if (piece === undefined) return null;
    pieces.push(piece);
    at += length;
  }
  return pieces;
}
