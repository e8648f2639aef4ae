import { describe, expect, test } from 'vitest';
import { CEMENT_CLASSES, MATERIALS, type CaseInput } from '../../machines/contract/index.ts';
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import { caseInput, disilicateUnit, fullShelf, zirconiaUnit } from '../case-samples.ts';

type Unit = CaseInput['units'][number];

const shelf: CaseInput['shelf'] = {
  ...fullShelf,
  metalPrimer: { label: 'metal primer', monomer: 'both' },
  cements: CEMENT_CLASSES.map((id) => ({ label: id, class: id })),
};
/** Cement classes a unit may be seated with. */
const fit = (unit: Unit) =>
  CEMENT_CLASSES.filter((cement) => checkCase(caseInput([{ ...unit, cement }], shelf)).ok);
const faults = (unit: Unit, more: Partial<CaseInput['shelf']> = {}) => {
  const checked = checkCase(caseInput([unit], { ...shelf, ...more }));
  return checked.ok ? [] : checked.problems;
};

const resins = ['adhesive-resin-dual', 'adhesive-resin-self'];
const acidBase = [
  'zinc-phosphate',
  'glass-ionomer',
  'resin-modified-glass-ionomer',
  'calcium-aluminate',
];
const failing = { heightMm: 2.5, convergenceDeg: 20, widthMm: 10 };
const { prep: _, ...formless } = disilicateUnit;
const veneer: Unit = {
  ...formless,
  tooth: '11',
  kind: 'veneer',
  substrate: 'enamel',
  thicknessMm: 0.6,
};

describe('which cement may go with what', () => {
  test('a crown of strong oxide or metal takes all but light cure while its form holds', () => {
    const all = [...acidBase, ...resins, 'self-adhesive-resin'];
    for (const material of ['zirconia-3y', 'zirconia-4y', 'noble-metal', 'titanium'] as const) {
      const unit: Unit = { ...zirconiaUnit, material, thicknessMm: 1.5 };
      expect(fit(unit)).toEqual(all);
      expect(fit({ ...unit, prep: failing })).toEqual(resins);
    }
  });
  test('5Y zirconia takes no resin-modified glass ionomer', () => {
    const unit: Unit = { ...zirconiaUnit, material: 'zirconia-5y', thicknessMm: 1.2 };
    expect(fit(unit)).toEqual([
      ...acidBase.filter((id) => id !== 'resin-modified-glass-ionomer'),
      ...resins,
      'self-adhesive-resin',
    ]);
  });
  test('class 1 and 2 ceramics and filled resin are bonded, always', () => {
    for (const material of MATERIALS.slice(0, 6)) {
      if (material === 'lithium-disilicate') continue;
      expect([material, fit({ ...disilicateUnit, tooth: '11', material, thicknessMm: 2 })]).toEqual(
        [material, resins],
      );
    }
  });
  test('lithium disilicate: a thick crown whose form holds goes conventional, a thin one is bonded', () => {
    const thick: Unit = { ...disilicateUnit, prep: zirconiaUnit.prep };
    expect(fit(thick)).toEqual([...acidBase, ...resins, 'self-adhesive-resin']);
    expect(fit({ ...thick, thicknessMm: 1.2 })).toEqual([...resins, 'self-adhesive-resin']);
  });
  test('veneers: light or dual cure; ceramic inlays and onlays: adhesive resin; wings: no light cure', () => {
    expect(fit(veneer)).toEqual(['adhesive-resin-light', 'adhesive-resin-dual']);
    const inlay: Unit = { ...formless, tooth: '26', kind: 'inlay', thicknessMm: 1.5 };
    expect(fit(inlay)).toEqual(resins);
    expect(fit({ ...inlay, thicknessMm: 1, translucency: 'high' })).toEqual([
      'adhesive-resin-light',
      ...resins,
    ]);
    const wing: Unit = {
      ...formless,
      tooth: '11',
      kind: 'resin-bonded-bridge',
      material: 'base-metal',
      substrate: 'enamel',
      thicknessMm: 0.7,
      bridge: { retainers: [], pontics: ['12'], connectorMm2: 9 },
    };
    expect(fit(wing)).toEqual(resins);
  });
  test('a cast inlay goes conventional', () => {
    const cast: Unit = {
      ...formless,
      tooth: '26',
      kind: 'inlay',
      material: 'noble-metal',
      thicknessMm: 1.2,
    };
    // Trade reference, 4B: calcium aluminate, no veneers and no inlays.
    const inlay = acidBase.filter((id) => id !== 'calcium-aluminate');
    expect(fit(cast)).toEqual([...inlay, ...resins, 'self-adhesive-resin']);
    expect(fit({ ...cast, kind: 'onlay' })).toContain('calcium-aluminate');
  });
  test('a titanium base: adhesive resin that sets by itself', () => {
    const unit: Unit = { ...zirconiaUnit, kind: 'implant-crown', substrate: 'titanium-base' };
    expect(fit(unit)).toEqual(resins);
  });
  test('a refusal names why, and what the shelf has instead', () => {
    expect(faults({ ...veneer, cement: 'zinc-phosphate' })).toEqual([
      {
        field: 'units[0].cement',
        message:
          'a veneer has no form and shows its cement: light-cure or dual-cure adhesive resin only; allowed: "adhesive-resin-light", "adhesive-resin-dual"',
      },
    ]);
  });
});

describe('what does not go together', () => {
  const field = (unit: Unit): string[] => faults(unit).map((fault) => fault.field);
  const dual = { cement: 'adhesive-resin-dual' };
  test('kind and substrate', () => {
    expect(field({ ...zirconiaUnit, ...dual, substrate: 'titanium-base' })).toEqual([
      'units[0].substrate',
    ]);
    expect(field({ ...veneer, ...dual, substrate: 'base-metal-core' })).toEqual([
      'units[0].substrate',
    ]);
  });
  test('kind and material', () => {
    expect(field({ ...veneer, ...dual, material: 'zirconia-3y' })).toEqual(['units[0].material']);
    expect(
      field({ ...disilicateUnit, ...dual, material: 'feldspathic', tooth: '46', thicknessMm: 2 }),
    ).toEqual(['units[0].material']);
  });
  test('a bridge: class by span, connector, teeth side by side, measures of every retainer', () => {
    const bridge: Unit = {
      ...zirconiaUnit,
      ...dual,
      kind: 'bridge',
      tooth: '26',
      thicknessMm: 1.5,
      bridge: {
        retainers: [{ tooth: '24', prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 8 } }],
        pontics: ['25'],
        connectorMm2: 9,
      },
    };
    expect(field(bridge)).toEqual([]);
    expect(field({ ...bridge, material: 'lithium-disilicate' })).toEqual([
      'units[0].material',
      'units[0].bridge.connectorMm2',
    ]);
    expect(field({ ...bridge, material: 'zirconia-4y' })).toEqual(['units[0].bridge.connectorMm2']);
    const { bridge: span } = bridge;
    if (span === undefined) throw new Error('a bridge has a span');
    expect(field({ ...bridge, bridge: { ...span, pontics: ['23'] } })).toEqual(['units[0].bridge']);
    expect(field({ ...bridge, bridge: { ...span, retainers: [{ tooth: '24' }] } })).toEqual([
      'units[0].bridge.retainers[0].prep',
    ]);
    const { bridge: __, ...without } = bridge;
    expect(field(without)).toEqual(['units[0].bridge']);
  });
  test('a crown without the measures of its prep', () => {
    const { prep: __, ...unmeasured } = zirconiaUnit;
    expect(field({ ...unmeasured, ...dual })).toEqual(['units[0].prep']);
  });
  test('a metal primer that binds another alloy', () => {
    const noble: Unit = { ...zirconiaUnit, ...dual, material: 'noble-metal', thicknessMm: 1.5 };
    expect(faults(noble, { metalPrimer: { label: 'p', monomer: 'phosphate' } })).toEqual([
      {
        field: 'shelf.metalPrimer.monomer',
        message: '"phosphate" does not bind noble alloy; allowed: "sulfur" or "both"',
      },
    ]);
    expect(faults(noble, { metalPrimer: null }).map((fault) => fault.field)).toEqual([
      'shelf.metalPrimer',
    ]);
  });
});

describe('the shelf', () => {
  const on = (unit: Unit, more: Partial<CaseInput['shelf']>) => ({
    ...caseInput([unit], more),
    on: '2030-06-01',
  });
  test('an expired lot that is used is refused, with a reason it is in the plan; one not used is let be', () => {
    const item = { label: 'our primer', lot: 'INV-3', expires: '2030-05-31' };
    const refused = checkCase(on(zirconiaUnit, { phosphatePrimer: item, silane: item }));
    expect(refused.ok ? [] : refused.problems).toEqual([
      {
        field: 'shelf.phosphatePrimer.expires',
        message:
          'our primer (INV-3) expired on 2030-05-31, and the appointment is on 2030-06-01; allowed: a lot in date, or shelf.phosphatePrimer.expiredReason',
      },
    ]);
    const asked = checkCase(
      on(zirconiaUnit, { phosphatePrimer: { ...item, expiredReason: 'one day over' } }),
    );
    expect(asked.ok ? makePlan(asked.case).expired : []).toEqual([
      { item: 'our primer', lot: 'INV-3', expires: '2030-05-31', reason: 'one day over' },
    ]);
    expect(
      checkCase(on(zirconiaUnit, { phosphatePrimer: { ...item, expires: '2030-06-01' } })).ok,
    ).toBe(true);
  });

  test('any number of the tables is the shelf’s to change, and the plan says whose it is', () => {
    const numbers = [
      { path: 'dwells.dry-check.span', target: 45, from: 'house rule' },
      { path: 'form.heightAlone', value: 5, from: 'house rule' },
    ];
    const checked = checkCase(caseInput([zirconiaUnit], { numbers }));
    if (!checked.ok) throw new Error('sound');
    const [plan] = makePlan(checked.case).units;
    const dwell = plan?.steps.find(({ id }) => id === 'dry-check')?.dwell;
    expect([dwell?.minS, dwell?.targetS, dwell?.mark, dwell?.source]).toEqual([
      30,
      45,
      'shelf',
      'house rule (shelf)',
    ]);
    expect(plan?.retention.working.some((line) => line.includes('from 5.0 mm of height'))).toBe(
      true,
    );
  });

  test('numbers that are none, or lose their shape, are told with their field', () => {
    const numbers = [
      { path: 'materials.gold.conditioning', target: 1, from: 'nobody' },
      { path: 'light.stop', target: 300, from: 'nobody' },
      { path: 'materials.zirconia-3y.conditioning', target: 25, from: 'nobody' },
    ];
    const checked = checkCase(caseInput([zirconiaUnit], { numbers }));
    expect(checked.ok ? [] : checked.problems.map(({ field }) => field)).toEqual([
      'shelf.numbers[0].path',
      'shelf.numbers[1].value',
      'shelf.numbers[2]',
    ]);
  });

  test('settings no material takes, and a light too weak to cure with', () => {
    const checked = checkCase(
      caseInput([zirconiaUnit], {
        abrasion: { particleUm: 110, bar: 4.5 },
        hydrofluoricAcid: { label: 'acid', percent: 20 },
        light: { mwCm2: 399 },
      }),
    );
    expect(checked.ok ? [] : checked.problems.map(({ field }) => field)).toEqual([
      'shelf.abrasion.particleUm',
      'shelf.abrasion.bar',
      'shelf.hydrofluoricAcid.percent',
      'shelf.light.mwCm2',
    ]);
  });

  test('a primer that speeds the cement halves its working time', () => {
    const checked = checkCase(
      caseInput([zirconiaUnit], { phosphatePrimer: { label: 'fast primer', touchCure: true } }),
    );
    if (!checked.ok) throw new Error('sound');
    const [plan] = makePlan(checked.case).units;
    expect(plan?.cement.workingS).toBe(60);
    expect(plan?.cement.workingFrom).toContain('because fast primer speeds it on contact');
  });
});

test('seating order: bases on the bench, then from the back, two to a mix; veneers from the middle; alone, one by one', () => {
  const crown = (tooth: string): Unit => ({
    ...zirconiaUnit,
    tooth,
    cement: 'adhesive-resin-dual',
  });
  const face = (tooth: string): Unit => ({ ...veneer, tooth, cement: 'adhesive-resin-dual' });
  const units = [face('12'), face('11'), face('21'), crown('45'), crown('47'), crown('46')];
  const given = caseInput(units, shelf);
  const order = (input: CaseInput) => {
    const checked = checkCase(input);
    return checked.ok ? makePlan(checked.case).order : checked.problems;
  };
  expect(order(given)).toEqual([['47', '46'], ['45'], ['11', '21'], ['12']]);
  expect(order({ ...given, team: 'solo' })).toEqual(
    ['47', '46', '45', '11', '21', '12'].map((tooth) => [tooth]),
  );
});
