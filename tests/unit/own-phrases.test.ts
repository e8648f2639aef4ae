import { describe, expect, it, test } from 'vitest';
import type { Live } from '../../machines/contract/index.ts';
import {
  commandFor,
  grammarFor,
  ownPhraseProblem,
  PHRASES,
  tidyWords,
} from '../../prompts/phrases/index.ts';
import { parseJsgf } from '../../prompts/grammar/index.ts';
import { sentencesOf } from '../../prompts/grammar/sentences.ts';

const SOAP = { words: 'soap on', means: 'cleaner on' };
const problem = (words: string, means = 'cleaner on'): string | null =>
  ownPhraseProblem({ words, means }, [], 'lantern');

describe('an own phrase', () => {
  it('is the command of the phrase it stands for, with a tooth or a reason as well', () => {
    expect(commandFor('soap on', undefined, [SOAP])).toEqual({ type: 'begin', step: 'cleaner' });
    expect(commandFor('tooth four six soap on', undefined, [SOAP])).toEqual({
      type: 'begin',
      step: 'cleaner',
      tooth: '46',
    });
    const leave = { words: 'leave it out', means: 'skip this step' };
    expect(PHRASES.some(({ texts }) => texts.includes(leave.means))).toBe(true);
    expect(commandFor('leave it out not needed', undefined, [leave])).toEqual({
      type: 'skip',
      reason: 'not-needed',
    });
    expect(commandFor('soap on')).toBeNull();
  });

  it('is heard exactly where that phrase is', () => {
    const live = (begins: Live['begins']): Live => ({ commands: [], begins, finishes: [] });
    const said = (begins: Live['begins']): readonly string[] =>
      sentencesOf(parseJsgf(grammarFor(live(begins), ['46'], [SOAP])), 'phrase');
    expect(said(['cleaner'])).toContain('soap on');
    expect(said(['silane'])).not.toContain('soap on');
  });

  it.each([
    ['soap', 'Two to six words'],
    ['one two three four five six seven', 'Two to six words'],
    ['soap 2 on', 'Letters only'],
    ['stop soap', 'always stops'],
    ['lantern soap', 'addresses Seatcall'],
    ['cleaner on', 'understood already'],
    ['silane on', 'means something else'],
    ['sylane on', 'sounds too much like “silane on”'],
    ['trying in the crown', 'begins like “trying in'],
  ])('"%s" does not serve: %s', (words, why) => {
    expect(problem(words)).toContain(why);
  });

  it('needs a meaning, and may not come too near another own phrase of another meaning', () => {
    expect(problem('soap on', 'nothing of ours')).toContain('choose what it means');
    const other = [{ words: 'soap in', means: 'silane on' }];
    expect(ownPhraseProblem(SOAP, other, 'lantern')).toContain('sounds too much like “soap in”');
    expect(problem('soap on')).toBeNull();
  });
});

test('words are taken as they are typed by people', () => {
  expect(tidyWords('  It’s   Soaped ')).toBe("it's soaped");
});
