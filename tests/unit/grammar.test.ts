/**
 * Examples marked JSGF are from the JSpeech Grammar Format, W3C Note, 5 June 2000 (from memory);
 * the others are our own.
 */
import { describe, expect, test } from 'vitest';
import {
  JsgfError,
  matches,
  parseJsgf,
  printJsgf,
  WordAutomaton,
} from '../../prompts/grammar/index.ts';

const head = '#JSGF V1.0;\ngrammar test;\n';

function accepts(rules: string, text: string): boolean {
  return matches(new WordAutomaton(parseJsgf(head + rules)), text);
}

function failure(text: string): string {
  try {
    parseJsgf(text);
  } catch (error) {
    if (error instanceof JsgfError) return error.message;
    throw error;
  }
  return 'no error';
}

describe('parseJsgf', () => {
  test('reads header, comments, weights, tags, strings, groups and repetition into a tree', () => {
    const text = `#JSGF V1.0 UTF-8 en;
      /* a
         comment */ grammar com.example.polite;
      // one more
      public <command> = [<polite>] (/10/ open {OPEN} | /0.5/ "shut up")* <object>+;
      <polite> = please; <object> = window;`;
    expect(parseJsgf(text)).toEqual({
      name: 'com.example.polite',
      encoding: 'UTF-8',
      locale: 'en',
      rules: [
        {
          name: 'command',
          isPublic: true,
          expansion: {
            kind: 'sequence',
            items: [
              { kind: 'optional', item: { kind: 'reference', name: 'polite' } },
              {
                kind: 'repeat',
                least: 0,
                item: {
                  kind: 'alternatives',
                  options: [
                    {
                      weight: 10,
                      expansion: {
                        kind: 'tagged',
                        item: { kind: 'word', text: 'open' },
                        tag: 'OPEN',
                      },
                    },
                    { weight: 0.5, expansion: { kind: 'word', text: 'shut up' } },
                  ],
                },
              },
              { kind: 'repeat', least: 1, item: { kind: 'reference', name: 'object' } },
            ],
          },
        },
        { name: 'polite', isPublic: false, expansion: { kind: 'word', text: 'please' } },
        { name: 'object', isPublic: false, expansion: { kind: 'word', text: 'window' } },
      ],
    });
  });

  test.each([
    ['', 'line 1, column 1: no JSGF header; expected #JSGF V1.0;'],
    ['#JSGF V2.0;', 'line 1, column 1: JSGF version 2.0; expected #JSGF V1.0;'],
    [
      '#JSGF V1.0;\nrule',
      'line 2, column 1: found "rule"; expected "grammar" and the grammar\'s name',
    ],
    [`${head}public <a> = (one | two;`, 'line 3, column 24: found ";"; expected ")"'],
    [
      `${head}public <a> = one | ;`,
      'line 3, column 20: found ";"; expected a word, <rule>, ( or [',
    ],
    [`${head}public <a> = one`, 'line 3, column 17: found the end of the text; expected ";"'],
    [
      `${head}public <a> =\n  one <b>;`,
      'line 4, column 7: <b> is not defined; expected one of <a>',
    ],
    [
      `${head}<a> = one;`,
      'line 3, column 11: found the end of the text; expected at least one public rule',
    ],
    [
      `${head}public <a> = one;\n<a> = two;`,
      'line 4, column 1: <a> is defined twice; expected one definition of each rule',
    ],
    [
      `${head}public <a> = [x] <b> y;\n<b> = z | <c>*  <a>;\n<c> = x;`,
      'line 3, column 1: left recursion <a> → <b> → <a>; expected a word to be said before a rule comes again',
    ],
    [`${head}public <a> = "one;`, 'line 3, column 14: string without end; expected """'],
    [`${head}public <a> = one /* two`, 'line 3, column 18: comment without end; expected */'],
    [
      `${head}public <a> = /x/ one;`,
      'line 3, column 14: weight /x/; expected a number of 0 or more',
    ],
    [
      `${head}import <com.example.*>;`,
      'line 3, column 1: found "import"; expected a rule: imports are not supported, copy the rules in',
    ],
  ])('%j is refused with its place', (text, message) => {
    expect(failure(text)).toBe(message);
  });

  test('what it prints reads back the same', () => {
    const text = `${head}public <a> = (one | two (three | "fo\\"ur five"))+ {a\\}b} | [<NULL>];\n`;
    expect(printJsgf(parseJsgf(text))).toBe(text);
  });
});

describe('the automaton', () => {
  test.each([
    ['public <a> = go [right] back;', 'go back', true],
    ['public <a> = go [right] back;', 'Go  RIGHT back', true],
    ['public <a> = go [right] back;', 'go right', false],
    ['public <a> = (very)* good;', 'good', true],
    ['public <a> = (very)* good;', 'very very very good', true],
    ['public <a> = very+ good;', 'good', false],
    ['public <a> = very+ good;', 'very very good', true],
    ['public <a> = ([very])* good;', 'very very good', true],
    ['public <a> = one; public <b> = two;', 'two', true],
    ['public <a> = one; <b> = two;', 'two', false],
    ['public <a> = <digit> [<a>]; <digit> = one | two;', 'one two two one', true],
    ['public <a> = open <a> close | x;', 'open open x close close', true],
    ['public <a> = open <a> close | x;', 'open open x close', false],
    ['public <a> = stop <VOID> | go <NULL>;', 'go', true],
    ['public <a> = stop <VOID> | go <NULL>;', 'stop', false],
    ['public <a> = "hold it" now;', 'hold it now', true],
    ['public <a> = <test.b>; <b> = two;', 'two', true],
    ['public <a> = go;', '', false],
  ])('%s with "%s": %s', (rules, text, expected) => {
    expect(accepts(rules, text)).toBe(expected);
  });

  test('right recursion and repetition give finitely many places', () => {
    const { start } = new WordAutomaton(parseJsgf(`${head}public <a> = (one | two)+ [<a>];`));
    const one = start.next.get('one');
    expect(one?.next.get('two')).toBe(one);
  });
});
