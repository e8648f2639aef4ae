import { beforeEach, expect, test } from 'vitest';
import { createSilentPlayer } from '../../assistant/voice/silent-player.ts';
import { createVoice, READY_MS, type Voice } from '../../assistant/voice/voice.ts';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { type MadeClock, madeClock } from '../made-clock.ts';

/** Every clip takes a second. */
const lengths = new Map(allPieces().map((piece) => [piece, { ms: 1_000 }]));

let clock: MadeClock;
let log: string[];
let voice: Voice;

function makeVoice(clips: ReadonlyMap<string, { readonly ms: number }>): Voice {
  return createVoice({
    clock,
    player: createSilentPlayer(clock, clips),
    listener: {
      onStart: ({ text, fromMs, untilMs, question }) =>
        log.push(`${fromMs}-${untilMs} ${text}${question ? ' (?)' : ''}`),
      onEnd: ({ untilMs }, whole) => log.push(`${untilMs} ${whole ? 'ended' : 'cut'}`),
      onDropped: (call, why) => log.push(`${call.id} ${why}`),
    },
  });
}

beforeEach(() => {
  clock = madeClock();
  log = [];
  voice = makeVoice(lengths);
});

test('a call tells its text, its start and its expected end, then its end', () => {
  voice.say({ id: 'begun', step: 'silane', seconds: 60 });
  clock.runTo(10_000);
  expect(log).toEqual(['0-2000 Silane on. Sixty seconds.', '2000 ended']);
});

test('a question is told as one', () => {
  voice.say({ id: 'ask-begin', step: 'porcelain-etch' });
  expect(log).toEqual(['0-2000 Porcelain etch. Start now? (?)']);
});

test('only the newest step that waits is said', () => {
  voice.say({ id: 'step', step: 'silane', seconds: null });
  voice.say({ id: 'step', step: 'mix', seconds: null });
  voice.say({ id: 'step', step: 'load', seconds: null });
  clock.runTo(10_000);
  expect(log).toEqual([
    '0-1000 Silane on the inside.',
    'step cancelled',
    '1000 ended',
    '1000-2000 Load it. A thin layer.',
    '2000 ended',
  ]);
});

test('the loudspeaker is got ready a second before a call, and when somebody speaks', () => {
  const ready: number[] = [];
  voice = createVoice({
    clock,
    player: { ...createSilentPlayer(clock, lengths), ready: () => ready.push(clock.now()) },
  });
  voice.schedule([{ call: { id: 'time', step: 'silane' }, dueMs: 30_000 }]);
  clock.runTo(29_500);
  expect(ready).toEqual([30_000 - READY_MS]);
  clock.runTo(60_000);
  expect(ready).toHaveLength(1);
  voice.ready();
  expect(ready.slice(1)).toEqual([60_000]);
});

test('timed calls are said at their time, and setting them again neither repeats nor keeps old ones', () => {
  const left = { id: 'left', step: 'silane', seconds: 10 } as const;
  const time = { id: 'time', step: 'silane' } as const;
  voice.schedule([
    { call: left, dueMs: 5_000 },
    { call: time, dueMs: 15_000 },
  ]);
  clock.runTo(5_500);
  voice.schedule([
    { call: left, dueMs: 5_000 },
    { call: time, dueMs: 17_000 },
  ]);
  clock.runTo(30_000);
  expect(log).toEqual([
    '5000-7000 Silane. Ten seconds.',
    'time cancelled',
    '7000 ended',
    '17000-19000 Time. Silane.',
    '19000 ended',
  ]);
});

test('after a reload, a timed call of the past is said only if it is still worth it', () => {
  clock.runTo(8_000);
  voice.schedule([
    { call: { id: 'left', step: 'silane', seconds: 10 }, dueMs: 2_000 },
    { call: { id: 'time', step: 'silane' }, dueMs: 7_000 },
  ]);
  expect(log).toEqual(['left late', '8000-10000 Time. Silane.']);
});

test('a missing clip does not stall the queue, and its text is still told', () => {
  voice = makeVoice(new Map([['Ten seconds.', { ms: 700 }]]));
  voice.say({ id: 'left', step: 'silane', seconds: 10 });
  voice.say({ id: 'noted' });
  clock.runTo(1_000);
  expect(log).toEqual(['0-700 Silane. Ten seconds.', '700 ended', '700-700 Noted.', '700 ended']);
});

test('stop is silence at once', () => {
  voice.say({ id: 'overdue', step: 'silane' });
  voice.say({ id: 'noted' });
  clock.runTo(300);
  voice.stop();
  clock.runTo(10_000);
  expect(log).toEqual(['0-3000 Over time. Silane. Dry it now.', '300 cut', 'noted cancelled']);
});

test('a timed call starts earlier by what the loudspeaker takes, and setting it again meanwhile does not repeat it', () => {
  const slow = { ...createSilentPlayer(clock, lengths), latencyMs: () => 60 };
  voice = createVoice({
    clock,
    player: slow,
    listener: { onStart: ({ text, fromMs }) => log.push(`${fromMs} ${text}`) },
  });
  const due = [{ call: { id: 'time', step: 'silane' }, dueMs: 1_000 }] as const;
  voice.schedule(due);
  clock.runTo(970);
  voice.schedule(due);
  clock.runTo(9_000);
  expect(log).toEqual(['940 Time. Silane.']);
});

test.each([0.1, 0.3, 0.5, 0.7])(
  'woken %f ms early, by a clock that goes on between two looks, each timed call is said',
  (earlyMs) => {
    let read = 0;
    // A look takes 0.2 ms: what is not due at one may be past at the next.
    const hasty = {
      now: () => clock.now() + (read += 0.2),
      at: (dueMs: number, task: () => void) => clock.at(dueMs - read - earlyMs, task),
    };
    const said: string[] = [];
    createVoice({
      clock: hasty,
      player: createSilentPlayer(hasty, lengths),
      listener: { onStart: ({ text }) => said.push(text) },
    }).schedule([
      { call: { id: 'left', step: 'silane', seconds: 30 }, dueMs: 2_000 },
      { call: { id: 'left', step: 'silane', seconds: 10 }, dueMs: 6_000 },
      { call: { id: 'time', step: 'silane' }, dueMs: 10_000 },
      { call: { id: 'left', step: 'tooth-etch', seconds: 5 }, dueMs: 14_000 },
    ]);
    clock.runTo(20_000);
    expect(said).toEqual([
      'Silane. Thirty seconds.',
      'Silane. Ten seconds.',
      'Time. Silane.',
      'Tooth etch. Five seconds.',
    ]);
  },
);
