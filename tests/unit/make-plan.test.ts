import { describe, expect, test } from 'vitest';
import { Plan } from '../../machines/contract/index.ts';
import type { CaseInput, UnitPlan } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { caseInput, caseOf, disilicateUnit, zirconiaUnit } from '../case-samples.ts';
import { CaseFile } from '../../machines/contract/index.ts';

type Changes = Partial<CaseInput['units'][number]>;
const planned = (unit: Changes, shelf: Partial<CaseInput['shelf']> = {}): UnitPlan => {
  const [first] = makePlan(caseOf([{ ...zirconiaUnit, ...unit }], shelf)).units;
  if (first === undefined) throw new Error('no unit planned');
  return first;
};
const ids = (steps: UnitPlan['steps']): string[] => steps.map(({ id }) => id);
const dwell = (plan: UnitPlan, id: string) =>
  [...plan.steps, ...plan.spare].find((step) => step.id === id)?.dwell ?? null;
const windowOf = (plan: UnitPlan, id: string) => {
  const found = dwell(plan, id);
  return found === null ? null : [found.minS, found.targetS, found.maxS];
};

const before = [
  'case-check',
  'history',
  'equipment',
  'disinfect',
  'shade-photo',
  'airway',
  'provisional-off',
  'prep-clean',
  'try-in',
  'contacts',
  'margins',
];
const after = ['isolation-out', 'residual', 'bite-after', 'polish', 'instructions', 'lots'];

describe('steps', () => {
  test('zirconia from the lab abraded, adhesive resin', () => {
    expect(ids(planned({}).steps)).toEqual([
      ...before,
      'bite-before',
      'approval',
      'take-out',
      'intaglio-rinse',
      'cleaner',
      'cleaner-rinse',
      'intaglio-dry',
      'zirconia-primer',
      'primer-dry',
      'isolate',
      'pumice',
      'dry-check',
      'tooth-etch',
      'tooth-etch-rinse',
      'bond',
      'bond-thin',
      'mix',
      'load',
      'seat',
      'tack',
      'flash',
      'floss',
      'gel',
      'cure-occlusal',
      'cure-buccal',
      'cure-lingual',
      'set',
      ...after,
    ]);
    expect(ids(planned({}).spare)).toEqual(['fit-paste', 'shade', 'abrade', 'gel-wait']);
  });

  test('lithium disilicate with silicone, ionomer', () => {
    const plan = planned({ ...disilicateUnit, fitPaste: true, cement: 'ionomer' });
    expect(ids(plan.steps)).toEqual([
      ...before,
      'fit-paste',
      'bite-before',
      'approval',
      'take-out',
      'intaglio-rinse',
      'porcelain-etch',
      'porcelain-etch-rinse',
      'intaglio-dry',
      'isolate',
      'pumice',
      'dry-check',
      'prep-moist',
      'mix',
      'load',
      'seat',
      'gel-wait',
      'flash',
      'floss',
      'set',
      ...after,
    ]);
    expect(ids(plan.spare)).toEqual(['shade', 'acid-clean', 'acid-clean-rinse']);
  });

  test('silicone planned on zirconia: abraded, never cleaned only', () => {
    const plan = planned({ fitPaste: true });
    expect(ids(plan.steps)).toContain('abrade');
    expect(ids(plan.steps)).not.toContain('cleaner');
  });

  test('no provisional, no step for it; try-in paste brings the shade', () => {
    const plan = planned({ provisionalCement: 'none', tryInPaste: true });
    expect(ids(plan.steps)).not.toContain('provisional-off');
    expect(ids(plan.steps)).toContain('shade');
  });

  test('light alone sets a thin translucent glass-ceramic: no waiting', () => {
    const plan = planned({ ...disilicateUnit, thicknessMm: 1, translucency: 'high' });
    expect([plan.cement.waitForSet, ids(plan.steps).includes('set')]).toEqual([false, false]);
    expect(ids(plan.spare)).toContain('set');
  });

  test('no light: gel is waited for, nothing is cured', () => {
    const plan = planned({}, { light: null });
    expect(ids(plan.steps).filter((id) => /tack|gel-wait|cure|set/.test(id))).toEqual([
      'gel-wait',
      'set',
    ]);
  });

  test('what counts as clean is only dried and primed, with a note; silicone never counts as clean', () => {
    const countsCleanReason = 'tried in on the model only';
    const plan = planned({ countsCleanReason });
    expect(ids(plan.steps).slice(14, 18)).toEqual([
      'intaglio-dry',
      'zirconia-primer',
      'primer-dry',
      'isolate',
    ]);
    expect(plan.notes.join(' ')).toContain(countsCleanReason);
    expect(ids(planned({ countsCleanReason, fitPaste: true }).steps)).toContain('abrade');
  });

  test('a shelf that cannot undo silicone does not offer it', () => {
    expect(ids(planned({}, { abrasion: null }).spare)).not.toContain('fit-paste');
  });
});

describe('dwells', () => {
  test('of the intaglio and the tooth', () => {
    const zirconia = planned({});
    const disilicate = planned(disilicateUnit);
    expect(windowOf(zirconia, 'cleaner')).toEqual([20, 20, 60]);
    expect(windowOf(zirconia, 'abrade')).toEqual([10, 15, 20]);
    expect(windowOf(zirconia, 'zirconia-primer')).toEqual([20, 30, 60]);
    expect(windowOf(zirconia, 'tooth-etch')).toEqual([10, 12, 15]);
    expect(windowOf(planned({ substrate: 'enamel' }), 'tooth-etch')).toEqual([15, 20, 30]);
    expect(windowOf(disilicate, 'porcelain-etch')).toEqual([15, 20, 30]);
    expect(windowOf(disilicate, 'acid-clean')).toEqual([60, 60, 120]);
    expect(windowOf(disilicate, 'silane')).toEqual([60, 60, 180]);
    expect(windowOf(disilicate, 'primer-dry')).toEqual([5, 5, null]);
    expect(windowOf(disilicate, 'seat')).toEqual([30, 45, 60]);
    expect(windowOf(disilicate, 'tack')).toEqual([4, 8, 12]);
  });

  test('an agent that works on is not held; rinse, light and air are', () => {
    const steps = [...planned({}).steps, ...planned({}).spare, ...planned(disilicateUnit).steps];
    const held = (holdable: boolean) =>
      new Set(steps.filter((step) => step.dwell?.holdable === holdable).map(({ id }) => id));
    expect([...held(false)].toSorted()).toEqual(
      [
        'cleaner',
        'zirconia-primer',
        'silane',
        'porcelain-etch',
        'tooth-etch',
        'bond',
        'dry-check',
        'seat',
        'gel-wait',
        'set',
      ].toSorted(),
    );
    expect([...held(true)].toSorted()).toEqual(
      [
        'intaglio-rinse',
        'cleaner-rinse',
        'intaglio-dry',
        'primer-dry',
        'abrade',
        'porcelain-etch-rinse',
        'tooth-etch-rinse',
        'bond-thin',
        'tack',
        'cure-occlusal',
        'cure-buccal',
        'cure-lingual',
      ].toSorted(),
    );
  });

  test('instructions for use outrank the built-in window and are named', () => {
    const plan = planned(
      {},
      { cleaner: { label: 'our cleaner', ifu: { minS: 30, targetS: 40, maxS: 90 } } },
    );
    expect(dwell(plan, 'cleaner')).toEqual({
      minS: 30,
      targetS: 40,
      maxS: 90,
      holdable: false,
      from: 'begin',
      mark: 'shelf',
      source: 'instructions for use of our cleaner',
    });
    expect(plan.notes.at(-1)).toBe(
      'Times from instructions for use on the shelf: our cleaner. All others are built in.',
    );
  });

  test('instructions for a longer tooth etch stop at 15 s on dentin only', () => {
    const acid = { phosphoricAcid: { label: 'acid', ifu: { targetS: 30 } } };
    expect(windowOf(planned({}, acid), 'tooth-etch')).toEqual([15, 15, 15]);
    expect(windowOf(planned({ substrate: 'enamel' }, acid), 'tooth-etch')).toEqual([30, 30, 40]);
  });

  test('set and gel count from the mix; a warm room shortens work and gel, not the set', () => {
    const cool = makePlan(caseOf([{ ...zirconiaUnit, cement: 'ionomer' }])).units[0];
    const warm = makePlan(
      CaseFile.parse({ ...caseInput([{ ...zirconiaUnit, cement: 'ionomer' }]), roomC: 33 }),
    ).units[0];
    if (cool === undefined || warm === undefined) throw new Error('no unit planned');
    expect([cool.cement.workingS, warm.cement.workingS]).toEqual([120, 60]);
    expect([windowOf(cool, 'gel-wait'), windowOf(warm, 'gel-wait')]).toEqual([
      [120, 150, 180],
      [60, 90, 120],
    ]);
    expect([windowOf(cool, 'set'), windowOf(warm, 'set')]).toEqual([
      [300, 300, null],
      [300, 300, null],
    ]);
    expect([dwell(cool, 'set')?.from, dwell(cool, 'gel-wait')?.from]).toEqual(['mix', 'mix']);
  });

  test('a cold room lengthens work, gel and set alike', () => {
    const [cold] = makePlan(
      CaseFile.parse({ ...caseInput([{ ...zirconiaUnit, cement: 'ionomer' }]), roomC: 13 }),
    ).units;
    if (cold === undefined) throw new Error('no unit planned');
    expect([cold.cement.workingS, cold.cement.settingS, windowOf(cold, 'gel-wait')]).toEqual([
      240,
      420,
      [240, 270, 300],
    ]);
    expect(dwell(cold, 'set')?.source).toBe(
      'the longest of 180 to 300 s from mix (common practice, no source), and 120 s for a seat as late as this room allows',
    );
  });

  test("the shelf's cement times come first", () => {
    const plan = planned(
      {},
      {
        cements: [
          { label: 'adhesive', class: 'adhesive-resin-dual', workingS: 150, settingS: 240 },
        ],
      },
    );
    expect([plan.cement.workingS, plan.cement.settingS, windowOf(plan, 'set')]).toEqual([
      150,
      240,
      [240, 240, null],
    ]);
    expect(dwell(plan, 'set')?.mark).toBe('shelf');
  });
});

test('alone, everything is the dentist', () => {
  const solo = makePlan(CaseFile.parse({ ...caseInput([zirconiaUnit]), team: 'solo' }));
  const who = new Set(
    solo.units.flatMap(({ steps, spare }) => [...steps, ...spare]).map((step) => step.who),
  );
  expect([...who]).toEqual(['dentist']);
});

test('a plan passes its own schema, and only the hazards it has are cautioned', () => {
  const zirconia = makePlan(caseOf([zirconiaUnit]));
  expect(Plan.parse(zirconia)).toEqual(zirconia);
  expect(zirconia.cautions.map(({ id }) => id)).not.toContain('hydrofluoric-acid');
  expect(makePlan(caseOf([disilicateUnit])).cautions.map(({ id }) => id)).toContain(
    'hydrofluoric-acid',
  );
});

describe('form', () => {
  const form = (tooth: string, heightMm: number, convergenceDeg: number, widthMm: number) =>
    planned({ tooth, prep: { heightMm, convergenceDeg, widthMm } }).retention;

  test('4 mm holds by itself within the limit, whatever the ratio (common practice, no source)', () => {
    expect(form('46', 4, 12, 11).holds).toBe(true);
    expect(form('46', 4, 25, 10).holds).toBe(false);
  });

  test('below the least height, or the ratio, it does not, and the sentence says why', () => {
    expect(form('46', 3.5, 10, 8).sentence).toBe(
      'Form does not hold by itself (3.5 mm is below the 4.0 mm of a molar): bonding with an adhesive resin is required.',
    );
    expect(form('24', 3.5, 10, 9).sentence).toBe(
      'Form does not hold by itself (height over base 0.39 is below 0.4): bonding with an adhesive resin is required.',
    );
  });
});
