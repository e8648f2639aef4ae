import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advance, dueCalls, initialState, replay, view } from '../../machines/conduct/index.ts';
import type { Outcome } from '../../machines/contract/index.ts';
import { arbitraryCase } from '../chair/arbitrary-case.ts';
import { arbitraryMove, play } from '../chair/moves.ts';
import { Operatory } from '../chair/operatory.ts';
import { standings } from '../chair/starts.ts';
import { essence } from '../laws/essence.ts';
import { breaches } from '../laws/judge.ts';
import { leadsOn } from '../laws/leads-on.ts';
import { mirrorFaults, unheard } from '../laws/mirror.ts';

const nightly = process.env['SEATCALL_NIGHTLY'] === '1';
/** A night's work can be done in so many pieces, each with a seed of its own. */
const pieces = Number(process.env['SEATCALL_PIECES'] ?? '1');
const RUNS = nightly ? Math.ceil(80_000 / pieces) : 3500;
const COLD = nightly ? Math.ceil(20_000 / pieces) : 1500;
/** By day the same sequences every time, so that a commit is judged by what it changed; by night new ones. */
const drawn = nightly ? {} : { seed: 20_261_125 };
const LONG = nightly ? 7_200_000 : 240_000;

const all = standings();
/** Where standings before the seating are, in which the laws bite; most sequences go on from one of these. */
const before = all.flatMap((chair, n) => (chair.unit.now.where === 'seated' ? [] : [n]));
/** Drawn by number: a counterexample then prints as one. */
const standing = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...before) },
  { weight: 1, arbitrary: fc.nat(all.length - 1) },
);
function from(n: number): Operatory {
  const chair = all[n];
  if (chair === undefined) throw new Error(`There is no standing ${n}`);
  return chair.fork();
}
const moves = (minLength: number, maxLength: number) =>
  fc.array(arbitraryMove, { minLength, maxLength, size: 'max' });

describe('random sequences of commands', () => {
  test(
    `no law is broken in ${RUNS} sequences that go on from any standing`,
    { timeout: LONG },
    () => {
      fc.assert(
        fc.property(standing, moves(4, 16), (n, done) => {
          const chair = from(n);
          for (const move of done) play(chair, move);
          expect(breaches(chair.state.case, chair.state.plan, chair.told)).toEqual([]);
          expect(mirrorFaults(chair.state)).toEqual([]);
        }),
        { numRuns: RUNS, ...drawn },
      );
    },
  );

  test(
    `no law is broken in ${COLD} sequences from the first word, on any case and shelf`,
    { timeout: LONG },
    () => {
      fc.assert(
        fc.property(arbitraryCase, moves(8, 30), (caseFile, done) => {
          const chair = new Operatory(caseFile);
          for (const move of done) play(chair, move);
          expect(breaches(caseFile, chair.state.plan, chair.told)).toEqual([]);
          expect(mirrorFaults(chair.state)).toEqual([]);
        }),
        { numRuns: COLD, ...drawn },
      );
    },
  );
});

/** Refused before anything was made of it. */
const held = (outcome: Outcome): boolean =>
  outcome.kind === 'refused' &&
  ['paused', 'stopped', 'closed', 'no-such-unit', 'nothing-before', 'no-dwell'].includes(
    outcome.refusal.id,
  );

const FEW = nightly ? Math.ceil(5000 / pieces) : 200;

describe('what holds besides the laws', () => {
  test(
    'the same entries give the same state, in one go and from any point on',
    { timeout: LONG },
    () => {
      fc.assert(
        fc.property(standing, moves(3, 15), fc.nat(), (n, done, cut) => {
          const chair = from(n);
          for (const move of done) play(chair, move);
          const entries = chair.told.map(({ at, command, heard }) => ({
            command,
            stamp: {
              at,
              wall: '2026-01-01T00:00:00Z',
              mono: at,
              who: 'dentist',
              via: 'typed',
              heard,
            } as const,
          }));
          const fresh = initialState(chair.state.case, chair.state.plan);
          const once = essence(replay(fresh, entries));
          expect(once).toEqual(essence(chair.state));
          const at = cut % (entries.length + 1);
          const halves = replay(replay(fresh, entries.slice(0, at)), entries.slice(at));
          expect(essence(halves)).toEqual(once);
        }),
        { numRuns: FEW, ...drawn },
      );
    },
  );

  test(
    'the way on of a refusal leads on, and every refusal names what was asked',
    { timeout: LONG },
    () => {
      fc.assert(
        fc.property(standing, moves(1, 12), (n, done) => {
          const chair = from(n);
          for (const move of done) play(chair, move);
          expect(leadsOn(chair)).toEqual(null);
        }),
        { numRuns: FEW * 2, ...drawn },
      );
    },
  );

  test('an entry names the step that was meant, as the screen showed it', { timeout: LONG }, () => {
    const BARE = ['begin', 'finish', 'short', 'skip', 'next'];
    fc.assert(
      fc.property(standing, moves(1, 15), (n, done) => {
        const chair = from(n);
        const mark = chair.told.length;
        for (const move of done) play(chair, move);
        const wrong = chair.told
          .slice(mark)
          .filter(({ command, outcome }) => BARE.includes(command.type) && !held(outcome))
          .filter(({ means, step }) => means !== step);
        expect(wrong).toEqual([]);
      }),
      { numRuns: FEW, ...drawn },
    );
  });

  test('whatever would be accepted, or refused for good, can be heard', { timeout: LONG }, () => {
    fc.assert(
      fc.property(standing, moves(1, 10), (n, done) => {
        const chair = from(n);
        for (const move of done) play(chair, move);
        expect(unheard(chair.state)).toEqual([]);
      }),
      { numRuns: FEW, ...drawn },
    );
  });

  test(
    'timed calls come in order, none before its dwell began; the screen can always be drawn',
    { timeout: LONG },
    () => {
      fc.assert(
        fc.property(standing, moves(1, 15), fc.integer({ min: 0, max: 1200 }), (n, done, later) => {
          const chair = from(n);
          for (const move of done) play(chair, move);
          const { state } = chair;
          const due = dueCalls(state);
          expect(due.map(({ at }) => at)).toEqual(
            due.map(({ at }) => at).toSorted((a, b) => a - b),
          );
          for (const { at, tooth, call } of due) {
            const dwell = chair
              .unitOn(tooth)
              .dwells.find((one) => 'step' in call && one.step === call.step);
            expect(at).toBeGreaterThanOrEqual((dwell?.startedAt ?? 0) - (dwell?.creditMs ?? 0));
          }
          const seen = view(state, state.at + later * 1000);
          expect(JSON.parse(JSON.stringify(seen))).toEqual(seen);
          const earlier = advance(state, { type: 'ask', about: 'step' }, { at: 0 });
          expect(earlier.state.at).toBe(state.at);
        }),
        { numRuns: FEW, ...drawn },
      );
    },
  );
});
