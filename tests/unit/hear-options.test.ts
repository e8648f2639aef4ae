import { describe, expect, test } from 'vitest';
import { addressed, afterCallSign } from '../../assistant/cli/hear-grammar.ts';
import { readHearOptions, WrongUse } from '../../assistant/cli/hear-options.ts';
import { matches, parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';

describe('readHearOptions', () => {
  test("Seatcall's own phrases follow the usual call sign", () => {
    expect(readHearOptions(['--json', 'a.wav', 'b.wav'])).toEqual({
      action: 'hear',
      json: true,
      grammar: null,
      callSign: 'lantern',
      clips: ['a.wav', 'b.wav'],
    });
  });

  test.each([
    [['--no-call-sign', 'a.wav'], null],
    [['--grammar', 'x.jsgf', 'a.wav'], null],
    [['--grammar', 'x.jsgf', '--call-sign', 'Anchor', 'a.wav'], 'anchor'],
    [['--call-sign', 'anchor', 'a.wav'], 'anchor'],
  ])('%j has the call sign %j', (args, callSign) => {
    expect(readHearOptions(args).callSign).toBe(callSign);
  });

  test.each([
    [[], 'name at least one CLIP.wav'],
    [['--call-sign', 'a', '--no-call-sign', 'a.wav'], 'exclude each other'],
    [['--call-sign', '7', 'a.wav'], '--call-sign: "7" is not a word'],
    [['--loud', 'a.wav'], "Unknown option '--loud'"],
    [['--grammar'], "Option '--grammar <value>' argument missing"],
  ])('%j is refused: %s', (args, message) => {
    expect(() => readHearOptions(args)).toThrow(WrongUse);
    expect(() => readHearOptions(args)).toThrow(message);
  });

  test('--print-grammar needs no clip', () => {
    expect(readHearOptions(['--print-grammar']).action).toBe('print-grammar');
  });
});

describe('the call sign', () => {
  const text = '#JSGF V1.0; grammar g; public <a> = go; public <addressed> = stop <b>; <b> = now;';
  const held = new WordAutomaton(parseJsgf(addressed(text, 'lantern')));

  test.each([
    ['lantern', true],
    ['lantern go', true],
    ['lantern stop now', true],
    ['go', false],
    ['lantern now', false],
  ])('"%s" is allowed: %s', (phrase, allowed) => {
    expect(matches(held, phrase)).toBe(allowed);
  });

  test('is taken off again, unless it is all', () => {
    expect(afterCallSign('lantern stop now', 'lantern')).toBe('stop now');
    expect(afterCallSign('lantern', 'lantern')).toBe('lantern');
    expect(afterCallSign('lantern go', null)).toBe('lantern go');
  });
});
