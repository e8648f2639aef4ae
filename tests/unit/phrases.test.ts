import { describe, expect, test } from 'vitest';
import { Command, type Live, REASONS, STEPS, TEETH } from '../../machines/contract/index.ts';
import { parseJsgf, WordAutomaton, matches } from '../../prompts/grammar/index.ts';
import {
  commandFor,
  ELSEWHERE_RULE,
  grammarFor,
  isEveryday,
  PHRASES,
  wholeGrammar,
} from '../../prompts/phrases/index.ts';
import { isAddressed } from '../../prompts/phrases/table.ts';
import { distance, phonesOf } from '../phones.ts';

const texts = PHRASES.flatMap((phrase) => phrase.texts.map((text) => ({ text, phrase })));
const live = (some: Partial<Live>): Live => ({ commands: [], begins: [], finishes: [], ...some });
/** The command without what a longer phrase may add. */
const bare = (command: Command): string =>
  JSON.stringify({ ...command, reason: undefined, tooth: undefined });

describe('every phrase', () => {
  test('is one command only', () => {
    const seen = new Map<string, string>();
    for (const { text, phrase } of texts) {
      expect(seen.get(text) ?? phrase.rule).toBe(phrase.rule);
      seen.set(text, phrase.rule);
    }
  });

  test('maps to its own command, which the contract knows', () => {
    for (const { text, phrase } of texts) {
      expect(commandFor(text)).toEqual(phrase.commands[0]);
      expect(Command.parse(commandFor(text))).toEqual(phrase.commands[0]);
    }
  });

  test('with a tooth before it, and a reason after it, is that command for both', () => {
    for (const { text, phrase } of texts) {
      const [command] = phrase.commands;
      const before = isAddressed(command) ? 'tooth four six ' : '';
      const after = phrase.takesReason === true ? ' for patient comfort' : '';
      expect(commandFor(`${before}${text}${after}`)).toEqual({
        ...command,
        ...(before === '' ? {} : { tooth: '46' }),
        ...(after === '' ? {} : { reason: 'patient-comfort' }),
      });
    }
  });

  test('is lower case words', () => {
    for (const { text } of texts) expect(text).toMatch(/^[a-z][a-z' -]*$/);
  });
});

test('every command, and the start and end of every step, has a phrase', () => {
  const commands = PHRASES.flatMap((phrase) => phrase.commands);
  // A unit is a tooth's name alone; a lot is spelled. Both are tested below.
  const types = new Set([...commands.map(({ type }) => type), 'unit', 'lot']);
  expect(types).toEqual(new Set(Command.options.map((option) => option.shape.type.value)));
  for (const step of STEPS) {
    for (const type of ['begin', 'finish', 'skip'] as const) {
      const own = PHRASES.filter(
        (phrase) =>
          phrase.commands.length === 1 &&
          JSON.stringify(phrase.commands[0]) === JSON.stringify({ type, step }),
      );
      expect(own.map(({ rule }) => rule)).toEqual([`${type}-${step}`]);
    }
  }
  const reasons = commands.flatMap((command) => (command.type === 'reason' ? command.reason : []));
  expect(reasons).toEqual([...REASONS]);
});

test('a tooth alone is that unit, by its digits and by its name', () => {
  const digits = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];
  for (const tooth of TEETH) {
    const [quadrant = '', place = ''] = Array.from(tooth, (figure) => digits[Number(figure) - 1]);
    expect(commandFor(`tooth ${quadrant} ${place}`)).toEqual({ type: 'unit', tooth });
  }
  expect(commandFor('upper right first molar')).toEqual({ type: 'unit', tooth: '16' });
  expect(commandFor('tooth four nine')).toBeNull();
});

test('a lot number is spelled, and its end word must be heard', () => {
  expect(commandFor('cement lot four two bravo zero x-ray end lot')).toEqual({
    type: 'lot',
    item: 'cement',
    lot: '42B0X',
  });
  expect(commandFor('cement lot four two')).toBeNull();
  expect(commandFor('cement lot end lot')).toBeNull();
  expect(commandFor(`bond lot ${'one '.repeat(21)}end lot`)).toBeNull();
});

test('words for whatever is due mean the first live step', () => {
  expect(commandFor('rinsing', live({ begins: ['tooth-etch-rinse', 'cleaner-rinse'] }))).toEqual({
    type: 'begin',
    step: 'tooth-etch-rinse',
  });
  expect(commandFor('rinsing', live({ begins: ['silane'] }))).toBeNull();
});

test('phrases that people say to each other all day are those without a word of the trade', () => {
  const said = (type: string): string[] =>
    texts
      .filter(({ text, phrase }) => isEveryday(text) && phrase.commands[0].type === type)
      .map(({ text }) => text);
  expect(said('finish').join(', ')).toBe(
    "that's it, done with that, it's off, it is off, it's down, it is down, it's home, it is home, it's dry, it is dry",
  );
  expect(said('soil')).toEqual(['touched it', 'dropped it']);
  expect(said('begin')).toEqual(['hold it', 'hold it still']);
  expect(said('close')).toEqual(['all done']);
  expect(said('skip')).toEqual([]);
  // What stops, and an answer in its time, is never asked back: attention sees to that.
  expect(isEveryday('stop')).toBe(false);
  for (const text of ["tooth four six that's it", 'mark done', 'cleaner off', 'rinsing now'])
    expect(isEveryday(text)).toBe(false);
});

describe('the grammar', () => {
  const whole = new WordAutomaton(parseJsgf(wholeGrammar()));

  test('allows every phrase, and nothing near it', () => {
    for (const { text } of texts) expect(matches(whole, text)).toBe(true);
    expect(matches(whole, 'tooth four six silane on')).toBe(true);
    expect(matches(whole, 'skip the final polish not needed')).toBe(true);
    expect(matches(whole, 'stop not needed')).toBe(false);
    expect(matches(whole, 'tooth four six stop')).toBe(false);
  });

  test('of what is live holds that and "stop", and what it allows is a command', () => {
    const now = live({ commands: ['finish', 'skip'], begins: ['silane'] });
    const text = grammarFor(now, ['46']);
    const automaton = new WordAutomaton(parseJsgf(text));
    for (const allowed of [
      'stop',
      'silane on',
      'tooth four six silane on',
      "that's it",
      'skip this step not needed',
    ]) {
      expect(matches(automaton, allowed)).toBe(true);
      expect(commandFor(allowed, now)).not.toBeNull();
    }
    for (const refused of ['cleaner on', 'yes', 'tooth one four silane on', 'not needed']) {
      expect(matches(automaton, refused)).toBe(false);
    }
    expect(commandFor('cleaner on', now)).toBeNull();
    for (const { text: phrase } of texts) {
      expect(commandFor(phrase, now) !== null).toBe(matches(automaton, phrase));
    }
  });

  test('of what is live holds every other phrase elsewhere', () => {
    const now = live({ commands: ['finish', 'skip'], begins: ['silane'] });
    const grammar = parseJsgf(grammarFor(now, ['46']));
    const heard = (rule: string): WordAutomaton =>
      new WordAutomaton({
        ...grammar,
        rules: grammar.rules.map((one) => ({ ...one, isPublic: one.name === rule })),
      });
    const [inTurn, elsewhere] = [heard('phrase'), heard(ELSEWHERE_RULE)];
    for (const { text } of texts) expect(matches(elsewhere, text)).toBe(!matches(inTurn, text));
    expect(matches(elsewhere, 'tooth four six cleaner off')).toBe(true);
  });

  test('of nothing live holds "stop" alone', () => {
    const automaton = new WordAutomaton(parseJsgf(grammarFor(live({}))));
    expect(texts.filter(({ text }) => matches(automaton, text)).map(({ text }) => text)).toEqual([
      'stop',
      'stop stop',
      'stop everything',
    ]);
  });
});

test('no phrase is the beginning of another that means something else', () => {
  const commands = new Map(texts.map(({ text, phrase }) => [text, phrase.commands]));
  const traps = [...commands].flatMap(([longer, command]) =>
    longer
      .split(' ')
      .map((_, i, words) => words.slice(0, i).join(' '))
      .filter((start) => {
        const other = commands.get(start);
        return other !== undefined && !other.map(bare).includes(bare(command[0]));
      })
      .map((start) => `${start} | ${longer}`),
  );
  expect(traps).toEqual([]);
});

describe('near-homophones', () => {
  /** Words never to be told apart by ear alone: TRADE reference, 9C (common practice). */
  const PAIRS = `silane/saline inlay/onlay mesial/facial core/cure dry/try light/tight high/dry
    primer/timer etch/edge fifteen/fifty thirteen/thirty sixteen/sixty dam/done seat/seed/sweet
    lot/light skip/strip floss/gloss pack/tack/back rinse/prints four/for two/to`
    .split(/\s+/)
    .map((pair) => pair.split('/'));
  const alike = (one: string, other: string): boolean =>
    one === other || PAIRS.some((pair) => pair.includes(one) && pair.includes(other));

  test('no two phrases differ only by words that sound alike', () => {
    const clashes = texts.flatMap((one, i) =>
      texts.slice(i + 1).flatMap((other) => {
        const [words, others] = [one.text.split(' '), other.text.split(' ')];
        const same =
          one.phrase !== other.phrase &&
          words.length === others.length &&
          words.every((word, j) => alike(word, others[j] ?? ''));
        return same ? [`${one.text} | ${other.text}`] : [];
      }),
    );
    expect(clashes).toEqual([]);
  });

  test('words of those pairs are never commands by themselves', () => {
    const risky = new Set(PAIRS.flat());
    expect(texts.filter(({ text }) => risky.has(text)).map(({ text }) => text)).toEqual([]);
    expect(texts.map(({ text }) => text)).not.toContain('etch on');
  });

  /** Pairs the trade itself tells apart by these words alone. */
  const OPPOSITES = [
    ['on', 'off'],
    ['in', 'out'],
    ['crown', 'prep', 'field'],
  ];

  test('phrases of different commands are at least a seventh of their phones apart', () => {
    const words = texts.map((one) => ({ ...one, phones: phonesOf(one.text) }));
    const close = words.flatMap((one, i) =>
      words.slice(i + 1).flatMap((other) => {
        const [shorter, longer] = [one.phones.length, other.phones.length].toSorted(
          (a, b) => a - b,
        );
        // So different in length that no distance need be measured.
        if (one.phrase === other.phrase || (shorter ?? 0) < (6 / 7) * (longer ?? 0)) return [];
        if (distance(one.phones, other.phones) >= 1 / 7) return [];
        const [left, right] = [one.text.split(' '), other.text.split(' ')];
        const opposed = left.every(
          (word, j) =>
            word === right[j] ||
            OPPOSITES.some((set) => set.includes(word) && set.includes(right[j] ?? '')),
        );
        return opposed ? [] : [`${one.text} | ${other.text}`];
      }),
    );
    expect(close).toEqual([]);
  });

  test('the measure finds what the trade warns of', () => {
    expect(distance(phonesOf('dry it'), phonesOf('try it'))).toBeLessThan(1 / 7);
    expect(distance(phonesOf('silane on'), phonesOf('mixing now'))).toBeGreaterThan(0.5);
  });
});
