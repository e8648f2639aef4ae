import type { Expansion, Grammar } from './ast.ts';
import { localName } from './check.ts';

/** A place in a grammar: the words said so far lead here. Equal places are one object. */
export interface WordState {
  /** Unique within its automaton, from 0 (the start). */
  readonly id: number;
  /** Whether a sentence may end here. */
  readonly accepting: boolean;
  /** The words that may come next, lower case, and where each leads. */
  readonly next: ReadonlyMap<string, WordState>;
}

/** What is still to be said: a node, then the rest. Equal frames are one object. */
interface Frame {
  readonly id: number;
  readonly node: Expansion;
  readonly rest: Frame | null;
}

/**
 * A deterministic automaton over words, made from the grammar as far as it is walked.
 * Rules may be recursive (not left-recursive); repetition and right recursion give finitely many
 * places, recursion in the middle gives more the deeper it is walked.
 */
export class WordAutomaton {
  readonly start: WordState;
  readonly #grammar: Grammar;
  readonly #rules: ReadonlyMap<string, Expansion>;
  readonly #frames = new Map<Frame | null, Map<Expansion, Frame>>();
  readonly #states = new Map<string, WordState>();
  readonly #stars = new Map<Expansion, Expansion>();
  readonly #splits = new Map<Expansion, Expansion>();
  #frameCount = 0;

  constructor(grammar: Grammar) {
    this.#grammar = grammar;
    this.#rules = new Map(grammar.rules.map((rule) => [rule.name, rule.expansion]));
    const open = grammar.rules.filter((rule) => rule.isPublic);
    this.start = this.#state(open.map((rule) => this.#push(rule.expansion, null)));
  }

  #push(node: Expansion, rest: Frame | null): Frame {
    let byNode = this.#frames.get(rest);
    if (byNode === undefined) this.#frames.set(rest, (byNode = new Map<Expansion, Frame>()));
    let frame = byNode.get(node);
    if (frame === undefined) byNode.set(node, (frame = { id: this.#frameCount++, node, rest }));
    return frame;
  }

  #state(frames: readonly (Frame | null)[]): WordState {
    const words = new Map<string, Set<Frame | null>>();
    const seen = new Set<Frame>();
    let accepting = false;
    const todo = [...frames];
    for (let frame = todo.pop(); frame !== undefined; frame = todo.pop()) {
      if (frame === null) accepting = true;
      else if (!seen.has(frame)) {
        seen.add(frame);
        this.#open(frame, todo, words);
      }
    }
    const wordFrames = [...seen].filter(({ node }) => node.kind === 'word');
    const key = `${accepting} ${wordFrames
      .map(({ id }) => id)
      .toSorted((a, b) => a - b)
      .join(' ')}`;
    const known = this.#states.get(key);
    if (known !== undefined) return known;
    const expand = () =>
      new Map([...words].map(([word, rests]) => [word, this.#state([...rests])]));
    let next: ReadonlyMap<string, WordState> | null = null;
    const state: WordState = {
      id: this.#states.size,
      accepting,
      get next() {
        return (next ??= expand());
      },
    };
    this.#states.set(key, state);
    return state;
  }

  /** Replaces one frame by what it stands for: words to `words`, all else to `todo`. */
  #open(frame: Frame, todo: (Frame | null)[], words: Map<string, Set<Frame | null>>): void {
    const { node, rest } = frame;
    switch (node.kind) {
      case 'word': {
        const word = node.text.toLowerCase();
        if (word.includes(' ')) {
          todo.push(this.#push(this.#split(node, word), rest));
          return;
        }
        const rests = words.get(word) ?? new Set<Frame | null>();
        words.set(word, rests.add(rest));
        return;
      }
      case 'reference': {
        const name = localName(this.#grammar, node.name);
        const rule = this.#rules.get(name);
        if (rule !== undefined) todo.push(this.#push(rule, rest));
        else if (name === 'NULL') todo.push(rest);
        return;
      }
      case 'sequence':
        todo.push(
          node.items.reduceRight<Frame | null>((tail, item) => this.#push(item, tail), rest),
        );
        return;
      case 'alternatives':
        for (const { expansion } of node.options) todo.push(this.#push(expansion, rest));
        return;
      case 'optional':
        todo.push(rest, this.#push(node.item, rest));
        return;
      case 'repeat':
        if (node.least === 0) todo.push(rest, this.#push(node.item, frame));
        else todo.push(this.#push(node.item, this.#push(this.#star(node.item), rest)));
        return;
      case 'tagged':
        todo.push(this.#push(node.item, rest));
    }
  }

  #star(item: Expansion): Expansion {
    let star = this.#stars.get(item);
    if (star === undefined) this.#stars.set(item, (star = { kind: 'repeat', least: 0, item }));
    return star;
  }

  #split(node: Expansion, words: string): Expansion {
    let split = this.#splits.get(node);
    if (split === undefined) {
      const items = words.split(' ').map((text) => ({ kind: 'word' as const, text }));
      this.#splits.set(node, (split = { kind: 'sequence', items }));
    }
    return split;
  }
}

/** Whether a text (case and spacing aside) is a sentence of the grammar. */
export function matches(automaton: WordAutomaton, text: string): boolean {
  let state: WordState | undefined = automaton.start;
  for (const word of text
    .toLowerCase()
    .split(/\s+/)
    .filter((part) => part !== '')) {
    state = state.next.get(word);
    if (state === undefined) return false;
  }
  return state.accepting;
}
