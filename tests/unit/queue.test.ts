import { expect, test } from 'vitest';
import { cancel, emptyQueue, enqueue, silence } from '../../assistant/voice/queue.ts';
import { call, run } from '../queue-runner.ts';

/** What happened, as `ms type key`. */
const story = (...says: Parameters<typeof run>[0]): string[] =>
  run(says).effects.flatMap(({ atMs, effect }) => {
    if (effect.type === 'play') return [];
    const why = effect.type === 'dropped' ? ` ${effect.why}` : '';
    return [`${atMs} ${effect.type} ${effect.utterance.key}${why}`];
  });

test('calls of one priority are said in order of arrival, one at a time', () => {
  expect(
    story(
      { atMs: 0, utterance: call('a', 'step', 0, { count: 2 }) },
      { atMs: 100, utterance: call('b', 'step', 100) },
    ),
  ).toEqual(['0 start a', '1000 said a', '1000 start b', '1500 said b']);
});

test('a stop cuts at once, and steps and chatter are forgotten', () => {
  expect(
    story(
      { atMs: 0, utterance: call('step', 'step', 0, { count: 3 }) },
      { atMs: 50, utterance: call('chat', 'chatter', 50) },
      { atMs: 60, utterance: call('no', 'refusal', 60) },
      { atMs: 200, utterance: call('halt', 'stop', 200) },
    ),
  ).toEqual([
    '0 start step',
    '200 dropped chat cancelled',
    '200 cut step',
    '200 start halt',
    '700 said halt',
    '700 start no',
    '1200 said no',
  ]);
});

test('an alarm cuts a refusal at once; the refusal is said again', () => {
  expect(
    story(
      { atMs: 0, utterance: call('no', 'refusal', 0, { count: 2 }) },
      { atMs: 300, utterance: call('over', 'alarm', 300) },
    ),
  ).toEqual([
    '0 start no',
    '300 cut no',
    '300 start over',
    '800 said over',
    '800 start no',
    '1800 said no',
  ]);
});

test('a refusal waits for the end of the piece of a step', () => {
  expect(
    story(
      { atMs: 0, utterance: call('next', 'step', 0, { count: 2 }) },
      { atMs: 100, utterance: call('no', 'refusal', 100) },
    ),
  ).toEqual([
    '0 start next',
    '500 cut next',
    '500 start no',
    '1000 said no',
    '1000 start next',
    '2000 said next',
  ]);
});

test('a timer cuts a long step at its due time, and chatter is not resumed', () => {
  expect(
    story(
      { atMs: 0, utterance: call('ten', 'timer', 2_000) },
      { atMs: 100, utterance: call('chat', 'chatter', 100, { count: 10 }) },
    ),
  ).toEqual(['100 start chat', '2000 cut chat', '2000 start ten', '2500 said ten']);
});

test('a refusal that waits for the piece of a step does not hold up a timer', () => {
  expect(
    story(
      { atMs: 0, utterance: call('next', 'step', 0, { pieceMs: 3_000 }) },
      { atMs: 0, utterance: call('ten', 'timer', 2_000) },
      { atMs: 1_990, utterance: call('no', 'refusal', 1_990) },
    ),
  ).toEqual([
    '0 start next',
    '2000 cut next',
    '2000 start no',
    '2500 said no',
    '2500 start ten',
    '3000 said ten',
    '3000 start next',
    '6000 said next',
  ]);
});

test('a step that a timer would soon cut waits until after it', () => {
  expect(
    story(
      { atMs: 0, utterance: call('ten', 'timer', 1_000) },
      { atMs: 600, utterance: call('next', 'step', 600) },
    ),
  ).toEqual(['1000 start ten', '1500 said ten', '1500 start next', '2000 said next']);
});

test('a call is dropped when its deadline passes unsaid', () => {
  expect(
    story(
      { atMs: 0, utterance: call('no', 'refusal', 0, { count: 4 }) },
      { atMs: 100, utterance: call('ten', 'timer', 100, { deadlineMs: 1_500 }) },
    ),
  ).toEqual(['0 start no', '2000 dropped ten late', '2000 said no']);
});

test('a duplicate of a waiting call merges; one for a later window does not', () => {
  expect(
    story(
      { atMs: 0, utterance: call('a', 'timer', 1_000, { deadlineMs: 400 }) },
      { atMs: 10, utterance: call('a', 'timer', 1_200, { deadlineMs: 400 }) },
      { atMs: 20, utterance: call('a', 'timer', 3_000, { deadlineMs: 400 }) },
    ),
  ).toEqual(['10 dropped a merged', '1000 start a', '1500 said a', '3000 start a', '3500 said a']);
});

test('silence cuts the call for good and drops the waiting ones', () => {
  const first = enqueue(emptyQueue, call('a', 'alarm', 0), 0).state;
  const second = enqueue(first, call('b', 'alarm', 0), 0).state;
  const { state, effects } = silence(second);
  expect(state).toEqual({ speaking: null, waiting: [] });
  expect(effects.map((effect) => effect.type)).toEqual(['cut', 'dropped']);
});

test('cancel drops waiting calls only', () => {
  const first = enqueue(emptyQueue, call('a', 'step', 0), 0).state;
  const second = enqueue(first, call('b', 'step', 0), 0).state;
  const { state } = cancel(second, () => true);
  expect(state.speaking?.utterance.key).toBe('a');
  expect(state.waiting).toEqual([]);
});

test('a call without pieces is refused', () => {
  expect(() => enqueue(emptyQueue, call('a', 'step', 0, { count: 0 }), 0)).toThrow(RangeError);
});
