import { describe, expect, test } from 'vitest';
import { dueCalls } from '../../../machines/conduct/index.ts';
import type { CaseInput, StepId } from '../../../machines/contract/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

type Unit = CaseInput['units'][number];

/** What a step comes to on a surface that has stood since it was due. */
const stood = (unit: Unit, due: StepId, seconds: number) =>
  new Operatory(inventedCase([unit])).until(due).wait(seconds).say({ type: 'begin', step: due });
const stale = (step: StepId, wayOn: StepId) => refusedAs('surface-stale', { step, wayOn });

/** Trade reference, 9B; common practice, no source. */
describe('a prepared surface past its time is refused (9B)', () => {
  test('abrasion to primer: 10 minutes', () => {
    expect(stood({ ...ZIRCONIA, intaglioFromLab: 'untreated' }, 'zirconia-primer', 601)).toEqual(
      stale('zirconia-primer', 'abrade'),
    );
  });
  test('etched and dried to silane: 30 minutes', () => {
    expect(stood(DISILICATE, 'silane', 1801)).toEqual(stale('silane', 'porcelain-etch'));
  });
  test('silane to cement: 60 minutes; it is cleaned and primed again', () => {
    expect(stood(DISILICATE, 'mix', 3601)).toEqual(stale('mix', 'acid-clean'));
  });
  test('tooth etch to adhesive: 60 seconds', () => {
    expect(stood(DISILICATE, 'bond', 61)).toEqual(stale('bond', 'tooth-etch'));
  });
  test('adhesive to seating: 3 minutes', () => {
    const chair = new Operatory(inventedCase([DISILICATE])).until('mix').wait(172);
    chair.doStep().doStep().wait(10);
    expect(chair.say({ type: 'begin', step: 'seat' })).toEqual(stale('seat', 'bond'));
  });
});

test('in time it is taken: the limits are of the trade, not of the machine', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('bond').wait(58);
  expect(chair.say({ type: 'begin', step: 'bond' })).toEqual({ kind: 'accepted', deviation: null });
});

test('drying once more makes an etched surface no younger', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('silane').wait(1700);
  chair.must({ type: 'begin', step: 'intaglio-rinse' }).wait(30);
  chair.must({ type: 'finish' });
  chair.must({ type: 'begin', step: 'intaglio-dry' }).wait(60).must({ type: 'finish' }).wait(60);
  expect(chair.refusedFor({ type: 'begin', step: 'silane' })).toBe('surface-stale');
});

test('the way on is open, and leads back to the cement', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('mix').wait(3601);
  expect(chair.refusedFor({ type: 'begin', step: 'mix' })).toBe('surface-stale');
  chair.must({ type: 'begin', step: 'acid-clean' }).wait(60).must({ type: 'finish' });
  chair.until('mix');
  expect(chair.unit.now.intaglio).toBe('primed');
});

test('adhesive past its time goes on again without a new etch', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('mix').wait(170);
  const before = chair.fork().wait(20);
  expect(before.refusedFor({ type: 'begin', step: 'seat' })).not.toBe('surface-stale');
  before.must({ type: 'begin', step: 'bond' }).wait(20).must({ type: 'finish' });
  before.must({ type: 'begin', step: 'bond-thin' }).wait(10).must({ type: 'finish' });
  expect(before.unit.now.prep).toBe('ready');
});

test('it is called before it lapses, and when it has', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('bond');
  const at = chair.unit.made.find(({ step }) => step === 'tooth-etch-rinse')?.at ?? 0;
  const calls = dueCalls(chair.state).filter(
    ({ call }) => 'step' in call && call.step === 'tooth-etch-rinse',
  );
  expect(calls.map((due) => [due.at - at, callText(due.call)])).toEqual([
    [30_000, 'Tooth rinse. Use it within. Thirty seconds.'],
    [50_000, 'Tooth rinse. Use it within. Ten seconds.'],
    [60_000, 'Too old now. Tooth rinse. Do it again.'],
  ]);
  chair.must({ type: 'begin', step: 'bond' });
  expect(
    dueCalls(chair.state).filter(({ call }) => call.id === 'good-for' || call.id === 'lapsed'),
  ).toEqual(
    dueCalls(chair.state).filter(({ call }) => 'step' in call && call.step === 'primer-dry'),
  );
});

test('a clinician may override it, with a reason that stays in the record', () => {
  const chair = new Operatory(inventedCase([DISILICATE])).until('bond').wait(61);
  chair.say({ type: 'begin', step: 'bond' });
  chair.must({ type: 'override', reason: 'clinical-judgement' });
  expect(chair.deviations.at(-1)).toMatchObject({ kind: 'overridden', step: 'bond' });
});
