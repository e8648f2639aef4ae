import fc from 'fast-check';
import { expect, test } from 'vitest';
import { PRIORITIES, rankOf } from '../../prompts/catalogue/priority.ts';
import { call, run, type TimedEffect } from '../queue-runner.ts';

const says = fc.array(
  fc
    .record({
      key: fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f'),
      priority: fc.constantFrom(...PRIORITIES),
      atMs: fc.nat(20_000),
      aheadMs: fc.nat(5_000),
      count: fc.integer({ min: 1, max: 5 }),
      pieceMs: fc.integer({ min: 80, max: 1_500 }),
      deadlineMs: fc.integer({ min: 0, max: 10_000 }),
    })
    .map(({ key, priority, atMs, aheadMs, ...rest }) => ({
      atMs,
      utterance: call(
        `${priority} ${key}`,
        priority,
        // Only timers are scheduled ahead; every other call is due when it is made.
        priority === 'timer' ? atMs + aheadMs : atMs,
        rest,
      ),
    })),
  { maxLength: 30 },
);

/** The stretches during which one call was said. */
function spoken(effects: readonly TimedEffect[]) {
  const turns: { key: string; rank: number; startMs: number; endMs: number }[] = [];
  for (const { atMs, effect } of effects) {
    if (effect.type === 'start') {
      const { key, priority } = effect.utterance;
      turns.push({ key, rank: rankOf(priority), startMs: atMs, endMs: Number.POSITIVE_INFINITY });
    }
    const last = turns.at(-1);
    if ((effect.type === 'said' || effect.type === 'cut') && last !== undefined) last.endMs = atMs;
  }
  return turns;
}

test('never two at once, and everything ends', () => {
  fc.assert(
    fc.property(says, (list) => {
      const { effects, state } = run(list);
      const turns = spoken(effects);
      turns.forEach((turn, i) => {
        const next = turns[i + 1];
        if (next !== undefined) expect(turn.endMs).toBeLessThanOrEqual(next.startMs);
        expect(turn.endMs).toBeLessThan(Number.POSITIVE_INFINITY);
      });
      expect(state).toEqual({ speaking: null, waiting: [] });
    }),
    { numRuns: 1_000 },
  );
});

test('a stop starts the moment it is called unless a stop is being said', () => {
  fc.assert(
    fc.property(says, (list) => {
      const turns = spoken(run(list).effects);
      for (const { atMs, utterance } of list) {
        if (utterance.priority !== 'stop') continue;
        const stopsThen = turns.some(
          (turn) => turn.rank === 0 && turn.startMs <= atMs && turn.endMs >= atMs,
        );
        expect(stopsThen).toBe(true);
      }
    }),
    { numRuns: 1_000 },
  );
});

test('a timer starts within 100 ms of due unless a call no less urgent has the voice', () => {
  fc.assert(
    fc.property(says, (list) => {
      const { effects } = run(list);
      const turns = spoken(effects);
      const merged = new Set(
        effects.flatMap(({ effect }) =>
          effect.type === 'dropped' && effect.why === 'merged' ? [effect.utterance.key] : [],
        ),
      );
      for (const { utterance } of list) {
        if (utterance.priority !== 'timer' || merged.has(utterance.key)) continue;
        const onTime = turns.some(
          (turn) =>
            turn.rank <= rankOf('timer') &&
            turn.startMs <= utterance.dueMs + 100 &&
            turn.endMs >= utterance.dueMs,
        );
        expect(onTime).toBe(true);
      }
    }),
    { numRuns: 1_000 },
  );
});

test('nothing starts before it is due or after its expiry', () => {
  fc.assert(
    fc.property(says, (list) => {
      for (const { atMs, effect } of run(list).effects) {
        if (effect.type !== 'start') continue;
        expect(atMs).toBeGreaterThanOrEqual(effect.utterance.dueMs);
        expect(atMs).toBeLessThanOrEqual(effect.utterance.expiresMs);
      }
    }),
    { numRuns: 1_000 },
  );
});

test('every call is said, merged, late, cancelled or cut by something more urgent', () => {
  fc.assert(
    fc.property(says, (list) => {
      const { effects } = run(list);
      const ends = effects.filter(
        ({ effect }) => effect.type === 'said' || effect.type === 'dropped',
      );
      const chatterCut = effects.filter(
        ({ effect }) =>
          effect.type === 'cut' && ['chatter', 'step'].includes(effect.utterance.priority),
      );
      expect(ends.length).toBeLessThanOrEqual(list.length);
      expect(ends.length + chatterCut.length).toBeGreaterThanOrEqual(list.length);
    }),
    { numRuns: 1_000 },
  );
});
