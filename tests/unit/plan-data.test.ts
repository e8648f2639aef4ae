import { describe, expect, test } from 'vitest';
import { CaseFile, type CaseInput } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { caseInput, disilicateUnit, fullShelf, zirconiaUnit } from '../case-samples.ts';

type Unit = CaseInput['units'][number];
const planOf = (unit: Unit, more: Partial<CaseInput> = {}) => {
  const [plan] = makePlan(CaseFile.parse({ ...caseInput([unit]), ...more })).units;
  if (plan === undefined) throw new Error('no plan');
  return plan;
};
const freshOf = (unit: Unit, more: Partial<CaseInput> = {}) =>
  Object.fromEntries(
    [...planOf(unit, more).steps, ...planOf(unit, more).spare].flatMap(({ id, goodFor }) =>
      goodFor === null ? [] : [[id, [goodFor.seconds, goodFor.before]]],
    ),
  );

describe('how long surfaces stay good', () => {
  test('zirconia under an adhesive resin', () => {
    expect(freshOf(zirconiaUnit)).toEqual({
      abrade: [600, ['zirconia-primer']],
      'primer-dry': [3600, ['mix', 'load']],
      'tooth-etch-rinse': [60, ['bond']],
      'bond-thin': [180, ['seat']],
    });
  });
  test('an etched glass-ceramic goes stale before its silane, an abraded inside not', () => {
    expect(freshOf(disilicateUnit)).toMatchObject({ 'intaglio-dry': [1800, ['silane']] });
  });
  test('nothing that the cement does not need', () => {
    expect(freshOf({ ...zirconiaUnit, cement: 'ionomer' })).toEqual({});
  });
  test('the practice may know better', () => {
    const numbers = [{ path: 'freshness.primer-dry.within', value: 1200, from: 'house rule' }];
    const step = planOf(zirconiaUnit, { shelf: { ...fullShelf, numbers } }).steps.find(
      ({ id }) => id === 'primer-dry',
    );
    expect(step?.goodFor).toMatchObject({ seconds: 1200, mark: 'shelf' });
  });
});

describe('who does it', () => {
  const who = (id: string, more: Partial<CaseInput>) =>
    planOf(zirconiaUnit, more).steps.find((step) => step.id === id)?.who;
  const ids = ['cleaner', 'seat', 'flash', 'cure-buccal', 'bite-after'];
  test.each([
    ['the usual', {}, ['assistant', 'dentist', 'both', 'assistant', 'dentist']],
    ['alone', { team: 'solo' as const }, ids.map(() => 'dentist')],
    ['nothing allowed', { assistantMay: [] }, ids.map(() => 'dentist')],
    [
      'may help to cement, may not cure',
      { assistantMay: ['condition' as const, 'cement' as const, 'clear' as const] },
      ['assistant', 'both', 'both', 'dentist', 'dentist'],
    ],
  ])('%s', (_, more, expected) => {
    expect(ids.map((id) => who(id, more))).toEqual(expected);
  });
});

describe('light', () => {
  const thin: Unit = {
    ...disilicateUnit,
    tooth: '11',
    kind: 'veneer',
    substrate: 'enamel',
    thicknessMm: 0.6,
    translucency: 'high',
  };
  const lightLine = (unit: Unit) => planOf(unit).working.find((line) => line.startsWith('Light:'));
  test('a dark shade takes more of it', () => {
    expect(lightLine(thin)).toContain('1.3 per mm');
    expect(lightLine({ ...thin, darkShade: true })).toContain('1.5 per mm');
  });
  test('none passes metal: margins only, and the set is waited for', () => {
    const metal: Unit = { ...zirconiaUnit, material: 'noble-metal', thicknessMm: 1.5 };
    const plan = planOf(metal, {
      shelf: { ...fullShelf, metalPrimer: { label: 'metal primer', monomer: 'sulfur' } },
    });
    expect(plan.steps.map(({ id }) => id).filter((id) => id.startsWith('cure'))).toEqual([
      'cure-buccal',
      'cure-lingual',
    ]);
    expect(plan.cement.waitForSet).toBe(true);
  });
  test('a light below four fifths of its baseline is told, whatever it still reads', () => {
    const told = (mwCm2: number, baselineMwCm2: number) =>
      planOf(thin, { shelf: { ...fullShelf, light: { mwCm2, baselineMwCm2 } } }).notes.some(
        (note) => note.includes('of its baseline'),
      );
    expect([told(1000, 1300), told(1040, 1300), told(2000, 2400)]).toEqual([true, false, false]);
  });
});

test('a bridge is as good as its worst retainer, which is named', () => {
  const plan = planOf({
    ...zirconiaUnit,
    kind: 'bridge',
    tooth: '26',
    thicknessMm: 1.2,
    bridge: {
      retainers: [{ tooth: '24', prep: { heightMm: 2.5, convergenceDeg: 10, widthMm: 8 } }],
      pontics: ['25'],
      connectorMm2: 10,
    },
  });
  expect(plan.retention.holds).toBe(false);
  expect(plan.retention.sentence).toMatch(
    /^Form of 24 does not hold by itself \(2\.5 mm is below/u,
  );
  expect(plan.retention.working.filter((line) => line.startsWith('26. '))).not.toEqual([]);
});

test('a groove lifts the limit and says that it is a bound', () => {
  const prep = { heightMm: 4, convergenceDeg: 24, widthMm: 10 };
  expect(planOf({ ...zirconiaUnit, prep }).retention.holds).toBe(false);
  const grooved = planOf({ ...zirconiaUnit, prep: { ...prep, groove: true } }).retention;
  expect([grooved.holds, grooved.limitDeg?.toFixed(1)]).toEqual([true, '53.1']);
  expect(grooved.sentence).toContain('an optimistic bound');
});

test('words fit the kind: nobody is told to seat a crown that is a veneer', () => {
  const veneer = planOf({
    ...disilicateUnit,
    tooth: '11',
    kind: 'veneer',
    substrate: 'enamel',
    thicknessMm: 0.6,
  });
  const said = [...veneer.steps, ...veneer.spare].flatMap((step) => [
    step.title,
    step.todo,
    step.gate,
    step.why,
  ]);
  expect([...said, ...veneer.notes].filter((text) => /crown/iu.test(text))).toEqual([]);
});
