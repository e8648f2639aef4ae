import { CharAutomaton, type CharState } from './char-automaton.ts';
import { type Grammar, matches, wordsIn, WordAutomaton } from '../../../prompts/grammar/index.ts';
import { OWN_VOICE_RULE } from '../port.ts';
import { beginningWith, type Segment, Segmentation } from './segmentation.ts';
import { textOf, vocabularyTree, type VocabularyNode } from './vocabulary.ts';

/** A place in the written form of a grammar's sentences, cut into tokens. Equal places are one object. */
export interface WalkState {
  /** The place in the written form alone: ways that cut it differently share it. */
  readonly place: number;
  /** The last words (one or none) of the sentences that may end here. */
  readonly endings: readonly (string | null)[];
  readonly chars: CharState;
  readonly segment: Segment;
}

/** A token that may come next, where it leads, and the words it shows to be complete. */
export interface TokenArc {
  readonly token: number;
  readonly state: WalkState;
  readonly words: readonly string[];
}

interface Reached {
  readonly state: CharState;
  readonly words: readonly string[];
}

const FULL_STOP = '.';

/** A grammar as tokens: the character automaton walked together with the vocabulary's tree. */
export class TokenWalk {
  readonly start: WalkState;
  /** The first word that stands in the grammar's rules, written as at a beginning: the call sign, where there is one. */
  readonly beginning: readonly number[];
  /** Our own voice alone. */
  readonly #own: WordAutomaton;
  readonly #segmentation: Segmentation;
  readonly #arcs = new Map<WalkState, readonly TokenArc[]>();
  readonly #states = new Map<CharState, Map<Segment, WalkState>>();

  constructor(grammar: Grammar) {
    const words = wordsIn(grammar);
    const [first] = words;
    this.#segmentation = new Segmentation(words);
    this.beginning = first === undefined ? [] : beginningWith(first);
    this.#own = new WordAutomaton({
      ...grammar,
      rules: grammar.rules.map((rule) => ({ ...rule, isPublic: rule.name === OWN_VOICE_RULE })),
    });
    const { start } = new CharAutomaton(new WordAutomaton(grammar).start);
    this.start = this.#state(start, this.#segmentation.start);
  }

  /** Whether `phrase` is a stretch of our own voice. */
  isOwnVoice(phrase: string): boolean {
    return matches(this.#own, phrase);
  }

  /** The tokens whose text goes on along some sentence. Kept, so asking again is free. */
  arcs(state: WalkState): readonly TokenArc[] {
    let arcs = this.#arcs.get(state);
    if (arcs === undefined) {
      const found: TokenArc[] = [];
      const reached = [{ state: state.chars, words: [] }];
      this.#walk(vocabularyTree(), '', state.segment, reached, found);
      this.#arcs.set(state, (arcs = found));
    }
    return arcs;
  }

  /**
   * Whether no sentence goes on or ends here: "▁L" begins "Lingual" as the vocabulary cuts it, but where
   * only "Lantern" may come, which it cuts another way, nothing follows.
   */
  isDeadEnd(state: WalkState): boolean {
    return state.endings.length === 0 && this.arcs(state).length === 0;
  }

  /** The token that comes next if any does, or that closes a sentence which may end here; null: who knows. */
  guess(state: WalkState): number | null {
    const arcs = this.arcs(state);
    if (state.endings.length > 0)
      return arcs.find(({ token }) => textOf(token) === FULL_STOP)?.token ?? null;
    const token = arcs[0]?.token ?? null;
    return arcs.every((arc) => arc.token === token) ? token : null;
  }

  #state(chars: CharState, segment: Segment): WalkState {
    const there = this.#states.get(chars) ?? new Map<Segment, WalkState>();
    this.#states.set(chars, there);
    let state = there.get(segment);
    if (state === undefined) {
      state = { place: chars.id, endings: chars.endings, chars, segment };
      there.set(segment, state);
    }
    return state;
  }

  #walk(
    node: VocabularyNode,
    text: string,
    from: Segment,
    reached: readonly Reached[],
    found: TokenArc[],
  ): void {
    for (const token of node.tokens) {
      const segment = this.#segmentation.after(from, token, text);
      if (segment === null) continue;
      for (const { state, words } of reached) {
        found.push({ token, state: this.#state(state, segment), words });
      }
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
      this.#walk(child, `${text}${char}`, from, next, found);
    }
  }
}
