import { describe, expect, it } from 'vitest';
import type { Mode } from '../../assistant/ear/attention.ts';
import { CallSignError, heldGrammar, readCallSign } from '../../assistant/ear/held-grammar.ts';
import { matches, parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';

const PHRASES = `#JSGF V1.0;
grammar now;
public <phrase> = <thing> on | next step;
public <other> = never this;
<thing> = cleaner | silane;
`;
const SAID = [
  'stop',
  'stop everything',
  'lantern',
  'lantern stop',
  'cleaner on',
  'next step',
  'lantern next step',
  'next',
  'never this',
  'lantern lantern',
];
const allowed = (mode: Mode, sign: string | null = 'lantern'): string[] => {
  const text = heldGrammar(PHRASES, mode, sign, ['stop', 'stop everything']);
  const grammar = new WordAutomaton(parseJsgf(text));
  return SAID.filter((said) => matches(grammar, said));
};

describe('what a segment is held to', () => {
  it('asleep: the call sign with or without a phrase, or stop', () => {
    const asleep = ['stop', 'stop everything', 'lantern', 'lantern stop', 'lantern next step'];
    expect(allowed('addressed')).toEqual(asleep);
    expect(allowed('guarded')).toEqual(asleep);
  });

  it('open: the call sign may be left out', () => {
    expect(allowed('open')).toEqual([
      'stop',
      'stop everything',
      'lantern',
      'lantern stop',
      'cleaner on',
      'next step',
      'lantern next step',
    ]);
  });

  it('free: no call sign; guarded then: stop only', () => {
    expect(allowed('free', null)).toEqual(['stop', 'stop everything', 'cleaner on', 'next step']);
    expect(allowed('guardedFree', null)).toEqual(['stop', 'stop everything']);
  });

  it('phrases that mean nothing now are heard wherever those are that do', () => {
    const text = PHRASES.replace('<other>', '<elsewhere>');
    for (const mode of ['addressed', 'guarded', 'open', 'free'] as const) {
      const grammar = new WordAutomaton(
        parseJsgf(heldGrammar(text, mode, mode === 'free' ? null : 'lantern', ['stop'])),
      );
      expect(matches(grammar, mode === 'free' ? 'never this' : 'lantern never this')).toBe(true);
      expect(matches(grammar, 'never this')).toBe(mode === 'open' || mode === 'free');
    }
  });

  it('a rule of the phrases may have the name ours has', () => {
    const taken = PHRASES.replaceAll('thing', 'utterance');
    const text = heldGrammar(taken, 'open', 'lantern', ['stop']);
    const grammar = new WordAutomaton(parseJsgf(text));
    expect(matches(grammar, 'lantern silane on')).toBe(true);
    expect(matches(grammar, 'silane')).toBe(false);
  });

  it('phrases without <phrase>, or that are not JSGF, are refused', () => {
    const other = '#JSGF V1.0; grammar g; public <a> = b;';
    expect(() => heldGrammar(other, 'open', 'lantern', ['stop'])).toThrow('no rule <phrase>');
    expect(() => heldGrammar('public', 'open', 'lantern', ['stop'])).toThrow('line 1, column 1');
  });
});

describe('the call sign', () => {
  it('may be any word or words', () => {
    expect(readCallSign('  Lantern ')).toBe('lantern');
    expect(readCallSign('Blue  Lamp')).toBe('blue lamp');
    expect(readCallSign('o’clock')).toBe("o'clock");
    expect(readCallSign('Jürgen')).toBe('jürgen');
  });

  it.each(['', '  ', 'r2', 'hey!', '<phrase>', 'a | b', 'stop', 'please stop', 'лампа'])(
    'is not "%s"',
    (text) => {
      expect(() => readCallSign(text)).toThrow(CallSignError);
    },
  );
});
