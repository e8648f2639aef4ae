import { CharAutomaton, type CharState } from './char-automaton.ts';
import type { WordState } from '../../../prompts/grammar/index.ts';
import { vocabularyTree, type VocabularyNode } from './vocabulary.ts';

/** A token that may come next, where it leads, and the words it shows to be complete. */
export interface TokenArc {
  readonly token: number;
  readonly state: CharState;
  readonly words: readonly string[];
}

interface Reached {
  readonly state: CharState;
  readonly words: readonly string[];
}

/** The grammar as tokens: the character automaton walked together with the vocabulary's tree. */
export class TokenWalk {
  readonly start: CharState;
  readonly #arcs = new Map<CharState, readonly TokenArc[]>();

  constructor(start: WordState) {
    this.start = new CharAutomaton(start).start;
  }

  /** The tokens whose text goes on along some sentence. Kept, so asking again is free. */
  arcs(state: CharState): readonly TokenArc[] {
    let arcs = this.#arcs.get(state);
    if (arcs === undefined) {
      const found: TokenArc[] = [];
      walk(vocabularyTree(), [{ state, words: [] }], found);
      this.#arcs.set(state, (arcs = found));
    }
    return arcs;
  }
}

function walk(node: VocabularyNode, reached: readonly Reached[], found: TokenArc[]): void {
  for (const token of node.tokens) {
    for (const { state, words } of reached) found.push({ token, state, words });
  }
  const chars = new Set(reached.flatMap(({ state }) => [...state.next.keys()]));
  for (const char of chars) {
    const child = node.children.get(char);
    if (child === undefined) continue;
    const next = reached.flatMap(({ state, words }) =>
      (state.next.get(char) ?? []).map((arc) => ({
        state: arc.state,
        words: arc.word === null ? words : [...words, arc.word],
      })),
    );
    walk(child, next, found);
  }
}
