import { describe, expect, test } from 'vitest';
import { dueCalls } from '../../../machines/conduct/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

/** Cleaner on a zirconia crown, on the bench: 20 s at least, 60 s at most. */
const cleaning = () =>
  new Operatory(inventedCase([ZIRCONIA])).until('cleaner').must({ type: 'begin', step: 'cleaner' });

describe('a dwell is served (law 7)', () => {
  test('an early done is refused with the seconds left', () => {
    expect(cleaning().wait(7.5).say({ type: 'finish' })).toEqual(
      refusedAs('dwell-too-short', {
        step: 'cleaner',
        wayOn: 'cleaner',
        seconds: 13,
        overridable: false,
      }),
    );
  });

  test('short asks for a reason, reads it back, is kept, and does not count as cleaning', () => {
    const chair = cleaning().wait(7.5);
    expect(chair.say({ type: 'short' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-reason', for: 'short' }]);
    expect(chair.say({ type: 'reason', reason: 'equipment-failed' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-short', step: 'cleaner', reason: 'equipment-failed' }]);
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: {
        kind: 'short',
        step: 'cleaner',
        reason: 'equipment-failed',
        refusal: null,
        servedS: 7.5,
      },
    });
    chair.doStep().doStep();
    expect(chair.unit.contaminants).toEqual(['glove', 'saliva']);
    expect(chair.say({ type: 'begin', step: 'zirconia-primer' })).toEqual(
      refusedAs('intaglio-soiled', { step: 'zirconia-primer', wayOn: 'cleaner' }),
    );
  });

  test('past its most it is called, called again, and kept as long', () => {
    const chair = cleaning();
    const start = chair.at;
    const due = dueCalls(chair.state).map(({ at, call }) => [(at - start) / 1000, call.id]);
    expect(due).toEqual([
      [10, 'left'],
      [20, 'time'],
      [61, 'overdue'],
      [76, 'overdue'],
      [91, 'overdue'],
      [106, 'overdue'],
    ]);
    expect(chair.wait(70).say({ type: 'finish' })).toEqual({
      kind: 'accepted',
      deviation: { kind: 'long', step: 'cleaner', reason: null, refusal: null, servedS: 70 },
    });
  });

  test('chemistry is not held; a rinse is, and its seconds stand still', () => {
    expect(cleaning().refusedFor({ type: 'hold' })).toBe('cannot-hold');
    const chair = cleaning().wait(20).must({ type: 'finish' });
    chair.must({ type: 'begin', step: 'cleaner-rinse' }).wait(12).must({ type: 'hold' });
    chair.wait(60);
    expect(chair.refusedFor({ type: 'finish' })).toBe('dwell-too-short');
    chair.must({ type: 'release' });
    expect(chair.calls).toEqual([{ id: 'released', seconds: 8 }]);
    chair.wait(8).must({ type: 'finish' });
    expect(chair.deviations).toEqual([]);
  });

  test('seconds added aloud move the target, not the least', () => {
    const chair = cleaning().must({ type: 'add', seconds: 10 });
    expect(dueCalls(chair.state).find(({ call }) => call.id === 'time')?.at).toBe(
      chair.at + 30_000,
    );
    chair.wait(20).must({ type: 'finish' });
  });

  test('two dwells run on two units; a bare done ends the one that has run longest', () => {
    const chair = new Operatory(inventedCase([ZIRCONIA, DISILICATE]));
    chair.until('cleaner').must({ type: 'unit', tooth: '15' }).until('porcelain-etch');
    chair.must({ type: 'begin', step: 'cleaner', tooth: '46' }).wait(5);
    chair.must({ type: 'begin', step: 'porcelain-etch', tooth: '15' }).wait(16);
    expect(
      dueCalls(chair.state)
        .map(({ tooth, call }) => [tooth, call.id])
        .slice(0, 4),
    ).toEqual([
      ['46', 'left'],
      ['15', 'left'],
      ['46', 'time'],
      ['15', 'time'],
    ]);
    chair.must({ type: 'finish', tooth: '46' });
    expect(chair.told.at(-1)).toMatchObject({ tooth: '46', means: 'cleaner' });
    chair.must({ type: 'finish' });
    expect(chair.told.at(-1)).toMatchObject({ tooth: '15', means: 'porcelain-etch' });
  });
});
