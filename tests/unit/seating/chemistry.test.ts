import { describe, expect, test } from 'vitest';
import type { CauseId, RefusalId, StepId } from '../../../machines/contract/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

const onBench = (unit: typeof ZIRCONIA) =>
  new Operatory(inventedCase([unit])).until('take-out').doStep();

describe('never, and no override (laws 2 and 3)', () => {
  const forbidden: readonly (readonly [typeof ZIRCONIA, StepId, RefusalId, CauseId, StepId])[] = [
    [ZIRCONIA, 'porcelain-etch', 'etch-not-etchable', 'etch-finds-no-glass', 'cleaner'],
    [ZIRCONIA, 'acid-clean', 'acid-before-primer', 'phosphate-takes-sites', 'cleaner'],
    [ZIRCONIA, 'silane', 'silane-on-zirconia', 'silane-finds-no-silica', 'zirconia-primer'],
    [DISILICATE, 'abrade', 'abrade-glass', 'abrasion-chips-glass', 'porcelain-etch'],
  ];
  test.each(forbidden)('$0.material: $1 is refused as $2', (unit, step, id, because, wayOn) => {
    const chair = onBench(unit);
    expect(chair.say({ type: 'begin', step })).toEqual(
      refusedAs(id, { step, wayOn, overridable: false, because }),
    );
    expect(chair.say({ type: 'override', reason: 'clinical-judgement' })).toEqual(
      refusedAs('no-override', { step, wayOn, overridable: false, because: 'harms' }),
    );
  });

  test.each<readonly [StepId, CauseId | undefined]>([
    ['cleaner', undefined],
    ['abrade', 'dust-in-mouth'],
    ['mix', 'still-in-mouth'],
    ['load', 'still-in-mouth'],
    ['seat', 'still-in-mouth'],
  ])('%s while the crown is in the mouth', (step, because) => {
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('contacts');
    expect(chair.say({ type: 'begin', step })).toEqual(
      refusedAs('in-mouth', {
        step,
        wayOn: 'take-out',
        overridable: false,
        ...(because === undefined ? {} : { because }),
      }),
    );
    expect(chair.refusedFor({ type: 'override', reason: 'clinical-judgement' })).toBe(
      'no-override',
    );
  });

  test('a blast that was begun on the bench cannot end in the mouth', () => {
    const chair = onBench(ZIRCONIA).must({ type: 'begin', step: 'abrade' });
    chair.must({ type: 'begin', step: 'try-in' }).wait(15);
    expect(chair.refusedFor({ type: 'finish', step: 'abrade' })).toBe('in-mouth');
    expect(chair.unit.contaminants).toEqual(['glove', 'saliva']);
  });

  test('phosphoric acid dripped on zirconia: no primer over it, by no override', () => {
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('zirconia-primer');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'acid' });
    expect(chair.say({ type: 'begin', step: 'zirconia-primer' })).toEqual(
      refusedAs('acid-before-primer', {
        step: 'zirconia-primer',
        wayOn: 'cleaner',
        overridable: false,
        because: 'phosphate-takes-sites',
      }),
    );
    expect(chair.refusedFor({ type: 'counts-clean', reason: 'not-needed' })).toBe(
      'acid-before-primer',
    );
  });
});

describe('lets through and earns nothing', () => {
  test('a phosphate primer on glass, overridden twice, does not prime it', () => {
    const chair = new Operatory(inventedCase([DISILICATE])).until('silane');
    expect(chair.refusedFor({ type: 'begin', step: 'zirconia-primer' })).toBe('primer-on-glass');
    chair.say({ type: 'override', reason: 'not-available' });
    expect(chair.refusedFor({ type: 'confirm' })).toBe('not-planned');
    chair.say({ type: 'override', reason: 'not-available' });
    chair.say({ type: 'confirm' });
    expect(chair.deviations.at(-1)).toEqual({
      kind: 'overridden',
      step: 'zirconia-primer',
      reason: 'not-available',
      refusal: {
        id: 'not-planned',
        step: 'zirconia-primer',
        wayOn: null,
        seconds: null,
        overridable: true,
        because: 'phosphate-primer-on-glass',
      },
      also: ['primer-on-glass'],
      servedS: null,
    });
    chair.must({ type: 'begin', step: 'primer-dry' }).wait(5);
    chair.must({ type: 'finish', step: 'primer-dry' });
    expect(chair.unit.now.intaglio).toBe('conditioned');
    expect(chair.refusedFor({ type: 'begin', step: 'mix' })).toBe('intaglio-not-primed');
  });

  test('the alkaline cleaner on glass does not clean it', () => {
    const chair = onBench({ ...DISILICATE, fitPaste: false });
    expect(chair.refusedFor({ type: 'begin', step: 'cleaner' })).toBe('cleaner-on-glass');
  });

  test('a primed crown that is blasted, rinsed or cleaned again is no longer primed', () => {
    for (const step of ['abrade', 'intaglio-rinse', 'cleaner'] as const) {
      const chair = new Operatory(inventedCase([ZIRCONIA])).until('mix');
      chair.must({ type: 'begin', step });
      expect(chair.unit.now.intaglio).toBe(step === 'cleaner' ? 'underAgent' : 'rinsed');
      expect(chair.say({ type: 'begin', step: 'mix' }).kind).toBe('refused');
    }
  });
});
