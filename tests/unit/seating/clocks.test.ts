import { describe, expect, test } from 'vitest';
import { dueCalls, view } from '../../../machines/conduct/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

/** Invented: set in glass ionomer, which nobody can light; 46 alone, or with another unit open. */
const IONOMER = { ...ZIRCONIA, cement: 'resin-modified glass ionomer' };

const texts = (chair: Operatory, ids: readonly string[]) =>
  dueCalls(chair.state)
    .filter(({ call }) => ids.includes(call.id))
    .map(({ at, call }) => [(at - chair.at) / 1000, callText(call)]);

describe('two clocks of a cement', () => {
  test('seat by: from the mix, at the room, called before and when it is over', () => {
    const chair = new Operatory(inventedCase([IONOMER])).until('mix');
    chair.must({ type: 'begin', step: 'mix' });
    const { workingS } = chair.unit.plan.cement;
    expect(texts(chair, ['seat-by', 'working-time-over'])).toEqual([
      [workingS - 60, 'Working time left. Sixty seconds.'],
      [workingS - 30, 'Working time left. Thirty seconds.'],
      [workingS - 10, 'Working time left. Ten seconds.'],
      [workingS, 'Working time over. Do not seat.'],
    ]);
  });

  test('a warm room shortens it, a cold one does not call it late', () => {
    const at = (roomC: number) =>
      new Operatory(inventedCase([IONOMER], { roomC })).unit.plan.cement.workingS;
    expect(at(28)).toBeLessThan(at(23));
    expect(at(18)).toBeGreaterThan(at(23));
  });

  test('past it seating is refused, and starting over is the way', () => {
    const chair = new Operatory(inventedCase([IONOMER])).until('mix').doStep().doStep();
    chair.wait(chair.unit.plan.cement.workingS + 1);
    expect(chair.refusedFor({ type: 'begin', step: 'seat' })).toBe('working-time-over');
    chair.must({ type: 'start-over' });
    expect(chair.unit.now.cement).toBe('none');
  });

  test('hold until: said when it is seated, called on the way, over at the gel and at the set', () => {
    const chair = new Operatory(inventedCase([IONOMER])).until('seat');
    const mixedAt = chair.unit.mixedAt ?? 0;
    const { steps } = chair.unit.plan;
    const first = steps.find(({ id }) => id === 'gel-wait' || id === 'set');
    const targetS = first?.dwell?.targetS ?? 0;
    chair.must({ type: 'begin', step: 'seat' });
    const left = targetS - (chair.at - mixedAt) / 1000;
    expect(chair.calls.at(-1)).toEqual({
      id: 'hold-until',
      until: first?.id === 'set' ? 'set' : 'gel',
      seconds: Math.ceil(left),
    });
    const due = texts(chair, ['hold-until', 'hold-over']);
    expect(due.at(-1)?.[0]).toBe(left);
    expect(due.at(-1)?.[1]).toMatch(/^The cement is (gelled|hard)\.$/);
    expect(due.length).toBeGreaterThan(1);
  });
});

test('the screen shows the clocks of every unit, not of the one worked on alone', () => {
  const chair = new Operatory(inventedCase([IONOMER, DISILICATE])).until('mix');
  chair.must({ type: 'begin', step: 'mix' }).must({ type: 'unit', tooth: '15' });
  const seen = view(chair.state, chair.at);
  expect(seen.seatByMs).toBe(null);
  expect(seen.clocks[0]).toEqual({
    clock: 'seat-by',
    tooth: '46',
    step: null,
    leftMs: chair.unitOn('46').plan.cement.workingS * 1000,
  });
});
