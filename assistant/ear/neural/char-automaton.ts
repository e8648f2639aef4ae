import type { WordState } from '../../../prompts/grammar/index.ts';
import { isUnit, spellings } from './spelling.ts';

/** Where a character leads; `word` is the word of the grammar that it shows to be complete. */
export interface CharArc {
  readonly state: CharState;
  readonly word: string | null;
}

/** A place in the written form of a grammar's sentences. Equal places are one object. */
export interface CharState {
  /** Unique within its automaton. */
  readonly id: number;
  /** Where each character may lead; more than one way where a spelling has two readings. */
  readonly next: ReadonlyMap<string, readonly CharArc[]>;
  /** The last words (one or none) of the sentences that may end here. */
  readonly endings: readonly (string | null)[];
}

/** All spellings of the words that may come next at one place, as a prefix tree. */
interface TrieNode {
  readonly children: Map<string, TrieNode>;
  readonly ends: TrieEnd[];
}

interface TrieEnd {
  readonly word: string;
  readonly target: WordState;
  readonly numeral: boolean;
  readonly needsUnit: boolean;
}

const CLOSING = ['.', '!', '?'];

/**
 * An automaton over characters for everything the model may write for a sentence: lower case,
 * a leading space, words parted by space, hyphen or comma, numbers as digits, a final stop.
 * Made from the word automaton as far as it is walked.
 */
export class CharAutomaton {
  readonly start: CharState;
  readonly #roots = new Map<WordState, TrieNode>();
  readonly #unitRoots = new Map<WordState, TrieNode>();
  readonly #states = new Map<TrieNode, CharState>();
  readonly #commas = new Map<WordState, CharState>();
  readonly #closed: CharState;
  #count = 0;

  constructor(start: WordState) {
    this.#closed = this.#lazy(() => new Map(), [null]);
    this.start = this.#lazy(() => this.#spaceTo(start), start.accepting ? [null] : []);
  }

  #lazy(make: () => Map<string, CharArc[]>, endings: readonly (string | null)[]): CharState {
    let next: ReadonlyMap<string, readonly CharArc[]> | null = null;
    return {
      id: this.#count++,
      endings,
      get next() {
        return (next ??= make());
      },
    };
  }

  #spaceTo(target: WordState): Map<string, CharArc[]> {
    return new Map([[' ', [{ state: this.#at(this.#root(target)), word: null }]]]);
  }

  #at(node: TrieNode): CharState {
    const known = this.#states.get(node);
    if (known !== undefined) return known;
    const endings = node.ends
      .filter((end) => end.target.accepting && !end.needsUnit)
      .map((end) => end.word);
    const state = this.#lazy(() => this.#arcs(node), endings);
    this.#states.set(node, state);
    return state;
  }

  #arcs(node: TrieNode): Map<string, CharArc[]> {
    const arcs = new Map<string, CharArc[]>();
    const add = (char: string, state: CharState, word: string | null): void => {
      const there = arcs.get(char);
      if (there === undefined) arcs.set(char, [{ state, word }]);
      else there.push({ state, word });
    };
    for (const [char, child] of node.children) add(char, this.#at(child), null);
    for (const end of node.ends) {
      if (end.needsUnit) {
        for (const [char, child] of this.#unitRoot(end.target).children) {
          add(char, this.#at(child), end.word);
        }
        continue;
      }
      if (end.target.accepting) for (const char of CLOSING) add(char, this.#closed, end.word);
      if (end.target.next.size === 0) continue;
      const root = this.#root(end.target);
      for (const char of ' -') add(char, this.#at(root), end.word);
      add(',', this.#comma(end.target), end.word);
      if (!end.numeral) continue;
      for (const [char, child] of root.children) {
        if (/[0-9%]/.test(char)) add(char, this.#at(child), end.word);
      }
    }
    return arcs;
  }

  #comma(target: WordState): CharState {
    let state = this.#commas.get(target);
    if (state === undefined) {
      this.#commas.set(target, (state = this.#lazy(() => this.#spaceTo(target), [])));
    }
    return state;
  }

  #root(state: WordState): TrieNode {
    let root = this.#roots.get(state);
    if (root === undefined) this.#roots.set(state, (root = trie(state.next)));
    return root;
  }

  /** Numerals one to nine only: what may follow a tens digit. */
  #unitRoot(state: WordState): TrieNode {
    let root = this.#unitRoots.get(state);
    if (root === undefined) {
      const units = [...state.next].filter(([word]) => isUnit(word));
      this.#unitRoots.set(state, (root = trie(new Map(units), true)));
    }
    return root;
  }
}

function trie(next: ReadonlyMap<string, WordState>, numeralsOnly = false): TrieNode {
  const root: TrieNode = { children: new Map(), ends: [] };
  for (const [word, target] of next) {
    for (const { text, numeral, needsUnit } of spellings(word)) {
      if (numeralsOnly && !numeral) continue;
      let node = root;
      for (const char of text) {
        let child = node.children.get(char);
        if (child === undefined) {
          node.children.set(char, (child = { children: new Map(), ends: [] }));
        }
        node = child;
      }
      node.ends.push({ word, target, numeral, needsUnit });
    }
  }
  return root;
}
