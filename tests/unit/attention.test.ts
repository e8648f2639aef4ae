import { describe, expect, it } from 'vitest';
import {
  AT_FIRST,
  ATTENTION,
  judge,
  modeFor,
  whenAddressed,
  whileSounding,
  wordsOf,
  type AttentionState,
} from '../../assistant/ear/attention.ts';

const span = (from: number, to = from + 800): { speechStartMs: number; speechEndMs: number } => ({
  speechStartMs: from,
  speechEndMs: to,
});
const say = (state: AttentionState, phrase: string | null, from = 10_000, options = ATTENTION) =>
  judge(state, span(from), phrase === null ? null : { phrase, score: 0.8, sure: true }, options);
const call = (text: string, fromMs = 9_000, untilMs = 12_000, question = false): AttentionState =>
  whileSounding(AT_FIRST, { text, fromMs, untilMs, question }, ATTENTION);

describe('asleep', () => {
  it('the call sign alone calls attention for eight seconds after it', () => {
    expect(say(AT_FIRST, 'lantern')).toEqual({
      state: { openUntilMs: 18_800, sounding: [] },
      verdict: { kind: 'attention' },
    });
  });

  it('the call sign with a phrase is the command', () => {
    expect(say(AT_FIRST, 'lantern cleaner on')).toEqual({
      state: { openUntilMs: 18_800, sounding: [] },
      verdict: { kind: 'command', phrase: 'cleaner on', sure: true },
    });
  });

  it('a bare phrase is not addressed and opens nothing', () => {
    expect(say(AT_FIRST, 'cleaner on')).toEqual({
      state: AT_FIRST,
      verdict: { kind: 'ignored', why: 'not addressed' },
    });
  });

  it('stop needs no call sign', () => {
    expect(say(AT_FIRST, 'stop').verdict).toEqual({ kind: 'command', phrase: 'stop', sure: true });
    expect(say(AT_FIRST, 'stop everything').verdict).toEqual({
      kind: 'command',
      phrase: 'stop everything',
      sure: true,
    });
  });

  it('nothing heard leaves everything as it was', () => {
    expect(say(AT_FIRST, null)).toEqual({
      state: AT_FIRST,
      verdict: { kind: 'ignored', why: 'nothing in the grammar' },
    });
  });
});

describe('the follow-up window', () => {
  it('takes speech that begins in it, though it ends after it', () => {
    const state = whenAddressed(AT_FIRST, 2_000, ATTENTION);
    expect(modeFor(state, span(10_000, 12_000), ATTENTION)).toBe('open');
    expect(say(state, 'next step', 10_000).verdict).toEqual({
      kind: 'command',
      phrase: 'next step',
      sure: true,
    });
    expect(modeFor(state, span(10_001), ATTENTION)).toBe('addressed');
    expect(say(state, 'next step', 10_001).verdict).toEqual({
      kind: 'ignored',
      why: 'not addressed',
    });
  });

  it('is opened by a question from its end, not by a plain call', () => {
    expect(call('Saliva on it?', 0, 1_000, true).openUntilMs).toBe(9_000);
    expect(call('Rinse.', 0, 1_000).openUntilMs).toBe(-Infinity);
    expect(call('Saliva on it?', 0, Infinity, true).openUntilMs).toBe(-Infinity);
  });

  it('is never shortened', () => {
    const state = whenAddressed(AT_FIRST, 20_000, ATTENTION);
    expect(whenAddressed(state, 5_000, ATTENTION)).toEqual(state);
  });
});

describe('while a call sounds', () => {
  const open = whenAddressed(call('Cleaner on. Twenty seconds.'), 9_500, ATTENTION);

  it('a bare phrase does not count, window or not', () => {
    expect(modeFor(open, span(10_000), ATTENTION)).toBe('guarded');
    expect(say(open, 'next step').verdict).toEqual({ kind: 'ignored', why: 'not addressed' });
  });

  it('what the call itself says is our own voice', () => {
    expect(say(open, 'cleaner on').verdict).toEqual({ kind: 'ignored', why: 'own voice' });
  });

  it('stop and an addressed phrase count', () => {
    expect(say(open, 'stop').verdict).toEqual({ kind: 'command', phrase: 'stop', sure: true });
    expect(say(open, 'lantern say again').verdict).toEqual({
      kind: 'command',
      phrase: 'say again',
      sure: true,
    });
  });

  it('an addressed phrase counts although the call says the same words', () => {
    const state = call('Next step: cleaner on.');
    expect(say(state, 'lantern cleaner on').verdict).toEqual({
      kind: 'command',
      phrase: 'cleaner on',
      sure: true,
    });
    expect(say(state, 'step cleaner').verdict).toEqual({ kind: 'ignored', why: 'own voice' });
  });

  it('a call that holds a stop phrase hides the bare one, not the addressed', () => {
    const state = call('Stop. It is in the mouth.');
    expect(say(state, 'stop').verdict).toEqual({ kind: 'ignored', why: 'own voice' });
    expect(say(state, 'lantern stop').verdict).toEqual({
      kind: 'command',
      phrase: 'stop',
      sure: true,
    });
  });

  it('a call that says the call sign and a phrase is not obeyed', () => {
    const state = call('To go on, say: Lantern, next step.');
    expect(say(state, 'lantern next step').verdict).toEqual({ kind: 'ignored', why: 'own voice' });
    expect(say(state, 'lantern').verdict).toEqual({ kind: 'ignored', why: 'own voice' });
  });

  it('part of a word of the call is not the call', () => {
    expect(say(call('Unstoppable.'), 'stop').verdict).toEqual({
      kind: 'command',
      phrase: 'stop',
      sure: true,
    });
  });

  it('its speech begins within it or 120 ms after; what a person began before it is open', () => {
    expect(modeFor(open, span(12_120), ATTENTION)).toBe('guarded');
    expect(modeFor(open, span(12_121), ATTENTION)).toBe('open');
    expect(modeFor(open, span(8_999, 9_500), ATTENTION)).toBe('open');
    expect(modeFor(open, span(9_000, 9_500), ATTENTION)).toBe('guarded');
  });

  it('a call told again with its end takes its place', () => {
    const begun = call('Rinse.', 9_000, Infinity);
    const ended = whileSounding(
      begun,
      { text: 'Rinse.', fromMs: 9_000, untilMs: 9_600 },
      ATTENTION,
    );
    expect(ended.sounding).toEqual([{ text: 'Rinse.', fromMs: 9_000, untilMs: 9_600 }]);
  });
});

describe('without a call sign', () => {
  const free = { ...ATTENTION, callSign: null };

  it('talk that resembles a phrase does not count, a stop does, an answer in the window', () => {
    const hear = (phrase: string, score: number, state = AT_FIRST): string =>
      judge(state, span(10_000), { phrase, score, sure: true }, free).verdict.kind;
    expect(hear('seating', 0.6)).toBe('ignored');
    expect(hear('seating', 0.7)).toBe('command');
    expect(hear('stop', 0.6)).toBe('ignored');
    expect(hear('stop', 0.7)).toBe('command');
    expect(hear('stop', 0.5, whenAddressed(AT_FIRST, 9_000, free))).toBe('command');
    expect(hear('yes', 0.5, whenAddressed(AT_FIRST, 9_000, free))).toBe('command');
    // What a patient answers to somebody else confirms nothing.
    expect(hear('yes', 1)).toBe('ignored');
    expect(hear('cancel that', 1)).toBe('ignored');
  });

  it('what people say to each other all day is asked back, but not after a call or a command', () => {
    const hear = (phrase: string, state: AttentionState = AT_FIRST): ReturnType<typeof judge> =>
      judge(state, span(20_000), { phrase, score: 0.9, sure: true }, free);
    const asked = { kind: 'command', phrase: "that's it", sure: false };
    const taken = { ...asked, sure: true };
    expect(hear("that's it")).toEqual({ state: AT_FIRST, verdict: asked });
    expect(hear("that's it", whenAddressed(AT_FIRST, 15_000, free)).verdict).toEqual(taken);
    const called = (untilMs: number): AttentionState =>
      whileSounding(AT_FIRST, { text: 'Cleaner off.', fromMs: 5_000, untilMs }, free);
    expect(hear("that's it", called(12_000)).verdict).toEqual(taken);
    expect(hear("that's it", called(11_999)).verdict).toEqual(asked);
    expect(hear('cleaner off').verdict).toEqual({ ...taken, phrase: 'cleaner off' });
    expect(
      judge(AT_FIRST, span(0), { phrase: "that's it", score: 0.6, sure: true }, free).verdict.kind,
    ).toBe('ignored');
  });

  it('every phrase counts, but only stop while a call sounds', () => {
    expect(
      judge(AT_FIRST, span(0), { phrase: 'seating', score: 1, sure: true }, free).verdict,
    ).toEqual({
      kind: 'command',
      phrase: 'seating',
      sure: true,
    });
    const state = call('Dry the field.');
    expect(modeFor(state, span(10_000), free)).toBe('guardedFree');
    expect(
      judge(state, span(10_000), { phrase: 'seating', score: 1, sure: true }, free).verdict,
    ).toEqual({
      kind: 'ignored',
      why: 'not addressed',
    });
    expect(
      judge(state, span(10_000), { phrase: 'stop', score: 1, sure: true }, free).verdict,
    ).toEqual({
      kind: 'command',
      phrase: 'stop',
      sure: true,
    });
  });
});

it('a call sign of two words is one call sign', () => {
  const options = { ...ATTENTION, callSign: 'blue lamp' };
  const heard = { phrase: 'blue lamp hold it', score: 1, sure: true };
  expect(judge(AT_FIRST, span(0), heard, options).verdict).toEqual({
    kind: 'command',
    phrase: 'hold it',
    sure: true,
  });
  expect(
    judge(AT_FIRST, span(0), { phrase: 'blue', score: 1, sure: true }, options).verdict,
  ).toEqual({
    kind: 'ignored',
    why: 'not addressed',
  });
});

it('words are lower case without their punctuation', () => {
  expect(wordsOf("Bite’s HIGH, one-six! It's 40.")).toEqual([
    "bite's",
    'high',
    'one-six',
    "it's",
    '40',
  ]);
});

describe('middling confidence', () => {
  const mumbled = (state: AttentionState, phrase: string, score = 0.2) =>
    judge(state, span(10_000), { phrase, score, sure: false }, ATTENTION).verdict;
  const awake = whenAddressed(AT_FIRST, 9_000, ATTENTION);

  it('counts where Seatcall was addressed, and in the window', () => {
    const asked = { kind: 'command', phrase: 'seating', sure: false };
    expect(mumbled(AT_FIRST, 'lantern seating')).toEqual(asked);
    expect(mumbled(awake, 'seating', 0.4)).toEqual(asked);
  });

  it('is enough after the call sign, but for an answer', () => {
    expect(mumbled(AT_FIRST, 'lantern seating', 0.3)).toEqual({
      kind: 'command',
      phrase: 'seating',
      sure: true,
    });
    expect(mumbled(awake, 'lantern yes', 0.4)).toMatchObject({ phrase: 'yes', sure: false });
  });

  it('talk in the room is no reason to ask, nor is a stop that nobody may have said', () => {
    const unclear = { kind: 'ignored', why: 'unclear' };
    expect(mumbled(AT_FIRST, 'stop')).toEqual(unclear);
    expect(mumbled(AT_FIRST, 'lantern')).toEqual(unclear);
    const free: typeof ATTENTION = { ...ATTENTION };
    const unsigned = { ...free, callSign: null };
    expect(
      judge(AT_FIRST, span(0), { phrase: 'seating', score: 0.4, sure: false }, unsigned).verdict,
    ).toEqual(unclear);
  });

  it('opens no window by itself beyond the one the question opens', () => {
    const asleep = judge(
      AT_FIRST,
      span(0),
      { phrase: 'lantern', score: 0.4, sure: false },
      ATTENTION,
    );
    expect(asleep.state).toEqual(AT_FIRST);
  });
});
