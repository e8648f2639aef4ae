import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Expansion, Grammar } from '../../prompts/grammar/index.ts';
import { matches, parseJsgf, printJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';

const names = ['first', 'second', 'third'];
const word = fc.constantFrom('one', 'two', "it's", 'x-ray', 'hold it', '16', 'say "x" \\');

/** Trees whose references point only to later rules, so no rule comes back to itself. */
function expansion(depth: number, later: readonly string[]): fc.Arbitrary<Expansion> {
  const leaf: fc.Arbitrary<Expansion>[] = [word.map((text) => ({ kind: 'word', text }))];
  if (later.length > 0) {
    leaf.push(fc.constantFrom(...later).map((name) => ({ kind: 'reference', name })));
  }
  if (depth === 0) return fc.oneof(...leaf);
  const inner = expansion(depth - 1, later);
  const weight = fc.option(fc.double({ min: 0, max: 1e6, noNaN: true }).map(Math.abs));
  return fc.oneof(
    ...leaf,
    fc
      .array(inner, { minLength: 2, maxLength: 3 })
      .map((items) => ({ kind: 'sequence', items }) as const),
    fc
      .array(fc.record({ weight, expansion: inner }), { minLength: 2, maxLength: 3 })
      .map((options) => ({ kind: 'alternatives', options }) as const),
    inner.map((item) => ({ kind: 'optional', item }) as const),
    fc
      .record({ least: fc.constantFrom(0 as const, 1 as const), item: inner })
      .map(({ least, item }) => ({ kind: 'repeat', least, item }) as const),
    fc
      .record({ item: inner, tag: fc.string({ unit: 'grapheme-ascii' }) })
      .map(({ item, tag }) => ({ kind: 'tagged', item, tag }) as const),
  );
}

const grammars: fc.Arbitrary<Grammar> = fc
  .tuple(...names.map((_, index) => expansion(2, names.slice(index + 1))))
  .map((expansions) => ({
    name: 'com.example.test',
    encoding: null,
    locale: null,
    rules: expansions.map((body, index) => ({
      name: names[index] ?? '',
      isPublic: index === 0,
      expansion: body,
    })),
  }));

/** One sentence of the grammar, each choice made by the next of `choices`. */
function sentence(grammar: Grammar, choices: readonly number[]): string[] {
  let made = 0;
  const choose = (below: number): number => (choices[made++ % choices.length] ?? 0) % below;
  const say = (node: Expansion): string[] => {
    switch (node.kind) {
      case 'word':
        return [node.text];
      case 'reference':
        return grammar.rules
          .filter(({ name }) => name === node.name)
          .flatMap((rule) => say(rule.expansion));
      case 'sequence':
        return node.items.flatMap(say);
      case 'alternatives':
        return node.options
          .slice(choose(node.options.length))
          .slice(0, 1)
          .flatMap((one) => say(one.expansion));
      case 'optional':
        return choose(2) === 0 ? [] : say(node.item);
      case 'repeat':
        return Array.from({ length: node.least + choose(3) }, () => say(node.item)).flat();
      case 'tagged':
      default:
        return say(node.item);
    }
  };
  return grammar.rules.slice(0, 1).flatMap((rule) => say(rule.expansion));
}

test('parsing what was printed gives the same tree', () => {
  fc.assert(
    fc.property(grammars, (grammar) => {
      expect(parseJsgf(printJsgf(grammar))).toEqual(grammar);
    }),
    { numRuns: 500 },
  );
});

test('every sentence made from a grammar is in it, and with a foreign word it is not', () => {
  fc.assert(
    fc.property(grammars, fc.array(fc.nat(100), { minLength: 1 }), (grammar, choices) => {
      const automaton = new WordAutomaton(grammar);
      const said = sentence(grammar, choices);
      expect(matches(automaton, said.join(' '))).toBe(true);
      expect(matches(automaton, [...said, 'foreign'].join(' '))).toBe(false);
    }),
    { numRuns: 500 },
  );
});
