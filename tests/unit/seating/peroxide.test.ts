import { describe, expect, test } from 'vitest';
import type { CaseInput } from '../../../machines/contract/index.ts';
import { checkCase, makePlan } from '../../../machines/plan/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { caseInput, zirconiaUnit } from '../../case-samples.ts';
import { combined } from '../../chair/combinations.ts';
import { inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

const peroxide = { type: 'soil', surface: 'prep', contaminant: 'peroxide' } as const;

/** Trade reference, 2: a week, or 10 % ascorbate; resin-modified glass ionomer did not bond (PMC3198552). */
describe('peroxide on the tooth (Ferraz 2018; PMC3198552)', () => {
  const conditioned = () => {
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('pumice').must(peroxide);
    return chair.until('tooth-etch');
  };

  test('is said as it lands, and cleaning does not take it out', () => {
    const chair = conditioned().until('bond');
    const outcome = chair.say({ type: 'begin', step: 'bond' });
    expect(outcome).toMatchObject({
      refusal: { id: 'peroxide-on-tooth', overridable: true, wayOn: null },
    });
    if (outcome.kind !== 'refused') throw new Error('refused');
    expect(callText({ id: 'refusal', refusal: outcome.refusal })).toBe(
      'Refused. Peroxide was on the tooth. Its oxygen keeps this cement from bonding. Bond it another day, or override it with a reason.',
    );
  });

  test('the clinician decides: one override answers for all that follows, and is kept', () => {
    const chair = conditioned().until('bond');
    expect(chair.refusedFor({ type: 'begin', step: 'bond' })).toBe('peroxide-on-tooth');
    chair.say({ type: 'override', reason: 'clinical-judgement' });
    chair.must({ type: 'confirm' });
    expect(chair.deviations.at(-1)).toMatchObject({
      kind: 'overridden',
      step: 'bond',
      refusal: { id: 'peroxide-on-tooth' },
    });
    chair.wait(20).must({ type: 'finish', step: 'bond' });
    chair.until('flash');
    expect(chair.unit.now.where).toBe('seated');
  });

  test('more of it after the override is asked about again, at the seat too', () => {
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('mix').must(peroxide);
    expect(chair.refusedFor({ type: 'begin', step: 'mix' })).toBe('prep-not-ready');
    const loaded = new Operatory(inventedCase([{ ...ZIRCONIA, cement: 'self-adhesive resin' }]));
    loaded.until('load').must(peroxide);
    expect(loaded.refusedFor({ type: 'begin', step: 'load' })).toBe('peroxide-on-tooth');
  });

  test('an acid-base cement sits on it all the same, and an abutment holds no oxygen', () => {
    const zinc = combined({
      material: 'zirconia-3y',
      kind: 'crown',
      substrate: 'dentin',
      cement: 'zinc-phosphate',
    });
    const implant = combined({
      material: 'zirconia-3y',
      kind: 'implant-crown',
      substrate: 'titanium-abutment',
      cement: 'adhesive-resin-dual',
    });
    for (const made of [zinc, implant]) {
      if (made === null) throw new Error('a case');
      const chair = new Operatory(made).until('isolate').must(peroxide).until('flash');
      expect(chair.unit.now.where).toBe('seated');
    }
  });

  test('taken back with its contamination', () => {
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('pumice').must(peroxide);
    expect(chair.unit.peroxide).toBe(true);
    chair.say({ type: 'undo' });
    chair.say({ type: 'confirm' });
    expect(chair.unit.peroxide).toBe(false);
  });
});

describe('a tooth bleached before', () => {
  type Unit = CaseInput['units'][number];
  const fields = (unit: Partial<Unit>): string[] => {
    const checked = checkCase(caseInput([{ ...zirconiaUnit, ...unit }]));
    return checked.ok ? [] : checked.problems.map(({ field }) => field);
  };

  test('within a week: refused under a resin or its ionomer, unless a reason is given', () => {
    expect(fields({ bleachedDaysAgo: 6 })).toEqual(['units[0].bleachedDaysAgo']);
    expect(fields({ bleachedDaysAgo: 6, cement: 'ionomer' })).toEqual(['units[0].bleachedDaysAgo']);
    const bleachedReason = 'ascorbate for ten minutes';
    expect(fields({ bleachedDaysAgo: 6, bleachedReason })).toEqual([]);
    const checked = checkCase(caseInput([{ ...zirconiaUnit, bleachedDaysAgo: 6, bleachedReason }]));
    if (!checked.ok) throw new Error('sound');
    expect(makePlan(checked.case).units[0]?.notes.join(' ')).toContain(
      `Bonded all the same because: ${bleachedReason}.`,
    );
  });
});
