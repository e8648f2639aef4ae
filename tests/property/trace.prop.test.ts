import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { project } from '../../machines/review/align/heuristic.ts';
import { align } from '../../machines/review/align/search.ts';
import { planNet } from '../../machines/review/net/plan-net.ts';
import { runningAfter, traceOf } from '../../machines/review/trace/trace.ts';
import type { RunningDwell } from '../../machines/seating/index.ts';
import { unitOf } from '../../machines/conduct/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';
import { arbitraryMove, type Move, play } from '../chair/moves.ts';
import { Operatory } from '../chair/operatory.ts';
import { chairRecord } from '../review/chair-record.ts';

const CASES = [
  inventedCase([ZIRCONIA]),
  inventedCase([DISILICATE]),
  inventedCase([ZIRCONIA, DISILICATE]),
];
const runs = process.env['SEATCALL_NIGHTLY'] === '1' ? 3000 : 60;

const clockOf = ({ step, startedAt, creditMs, heldMs, heldAt }: RunningDwell) => ({
  step,
  startedAt,
  creditMs,
  heldMs,
  heldAt,
});

/** Cases by number and moves: a failure is shown by these, not by all that a chair holds. */
const played = fc.tuple(
  fc.nat(CASES.length - 1),
  fc.array(arbitraryMove, { minLength: 5, maxLength: 60 }),
);

function chairAfter([n, moves]: readonly [number, readonly Move[]]): Operatory {
  const chair = new Operatory(CASES[n] ?? inventedCase([ZIRCONIA]));
  for (const move of moves) play(chair, move);
  return chair;
}

describe('a record read without the machine', () => {
  test('its clocks stand where the machine has them, whatever was said', () => {
    fc.assert(
      fc.property(played, (drawn) => {
        const chair = chairAfter(drawn);
        const { header, entries } = chairRecord(chair);
        const read = runningAfter(header, entries);
        for (const tooth of Object.keys(chair.state.units)) {
          const mine = (read.get(tooth) ?? []).map(clockOf);
          expect(mine).toEqual(unitOf(chair.state, tooth).dwells.map(clockOf));
        }
      }),
      { numRuns: runs },
    );
  });

  test('drawn once: a dry check left running under a seated crown goes on when the prep is wetted', () => {
    const moves: readonly Move[] = [
      { do: 'until', step: 'bond-thin' },
      { do: 'meddle', step: 'dry-check', towards: 'tack' },
      { do: 'say', command: { type: 'soil', surface: 'prep', contaminant: 'drop' }, yes: true },
    ];
    const chair = chairAfter([0, moves]);
    const { header, entries } = chairRecord(chair);
    const read = (runningAfter(header, entries).get('46') ?? []).map(clockOf);
    expect(read).toEqual(unitOf(chair.state, '46').dwells.map(clockOf));
    expect(read.map(({ step }) => step)).toEqual(['dry-check', 'tack']);
  });

  test('nothing that was said makes an alignment impossible, and its moves tell the trace again', () => {
    fc.assert(
      fc.property(played, (drawn) => {
        const chair = chairAfter(drawn);
        const { header, entries } = chairRecord(chair);
        const trace = traceOf(header, entries).activities.map(({ label }) => label);
        const { cost, moves } = align(project(planNet(header.case, header.plan)), trace);
        expect(moves.flatMap(({ event }) => (event === null ? [] : [event]))).toEqual(
          trace.map((_, i) => i),
        );
        const paid = moves.filter(
          ({ event, transition }) =>
            transition === null || (event === null && transition.label !== null),
        );
        expect(paid.length).toBe(cost);
      }),
      { numRuns: runs },
    );
  });
});

test('an appointment by the plan costs nothing', () => {
  for (const caseFile of CASES) {
    const { header, entries } = chairRecord(new Operatory(caseFile).until(null));
    const trace = traceOf(header, entries).activities.map(({ label }) => label);
    expect(align(project(planNet(caseFile, header.plan)), trace).cost).toBe(0);
  }
});
