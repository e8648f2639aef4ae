import { describe, expect, test } from 'vitest';
import type { CaseInput, Substrate, UnitPlan } from '../../machines/contract/index.ts';
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import { Operatory } from '../chair/operatory.ts';
import { mixedBridge, mixedBridges } from '../chair/mixed.ts';
import { caseInput, zirconiaUnit } from '../case-samples.ts';

type Unit = CaseInput['units'][number];
/** Invented: a bridge from 24 to 26, its retainers as named. */
const bridge = (
  first: Substrate,
  other: Substrate | undefined,
  more: Partial<Unit> = {},
): Unit => ({
  ...zirconiaUnit,
  tooth: '26',
  kind: 'bridge',
  substrate: first,
  bridge: {
    retainers: [
      {
        tooth: '24',
        prep: { heightMm: 4, convergenceDeg: 10, widthMm: 8 },
        ...(other === undefined ? {} : { substrate: other }),
      },
    ],
    pontics: ['25'],
    connectorMm2: 12,
  },
  ...more,
});
const metal = { metalPrimer: { label: 'metal primer', monomer: 'both' } } as const;
const problemsOf = (unit: Unit, shelf: Partial<CaseInput['shelf']> = metal) => {
  const checked = checkCase(caseInput([unit], shelf));
  return checked.ok ? [] : checked.problems;
};
const planOf = (unit: Unit): UnitPlan => {
  const checked = checkCase(caseInput([unit], metal));
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  const [plan] = makePlan(checked.case).units;
  if (plan === undefined) throw new Error('no plan');
  return plan;
};
const ids = ({ steps }: UnitPlan): string[] => steps.map(({ id }) => id);
const step = (plan: UnitPlan, id: string) => plan.steps.find((one) => one.id === id);

describe('each retainer on its own substrate', () => {
  test('dentin and a noble-metal core: what either needs, each step by its tooth', () => {
    const plan = planOf(bridge('dentin', 'noble-metal-core'));
    const tooth = ids(plan).slice(ids(plan).indexOf('isolate'), ids(plan).indexOf('mix'));
    expect(tooth).toEqual([
      'isolate',
      'pumice',
      'prep-roughen',
      'dry-check',
      'tooth-etch',
      'tooth-etch-rinse',
      'core-primer',
      'bond',
      'bond-thin',
    ]);
    expect(step(plan, 'tooth-etch')?.todo).toMatch(/^26: Acid on the enamel margin/);
    expect(step(plan, 'core-primer')?.todo).toBe(
      '24: Sulfur-monomer primer on the metal; keep it off the tooth.',
    );
    expect(step(plan, 'prep-roughen')?.todo).toMatch(/^24: Roughen the core/);
    expect(step(plan, 'bond')?.todo).not.toMatch(/^2[46]:/);
    expect(plan.notes.join(' ')).toContain('26 on dentin, 24 on noble-metal post and core');
  });

  test('dentin and a titanium abutment: both cleaned, one step closes it for both', () => {
    const plan = planOf(bridge('dentin', 'titanium-abutment'));
    expect(ids(plan)).toEqual(expect.arrayContaining(['prep-clean', 'abutment-in']));
    const tooth = ids(plan).slice(ids(plan).indexOf('isolate'), ids(plan).indexOf('mix'));
    expect(tooth).toEqual([
      'isolate',
      'pumice',
      'abutment-clean',
      'dry-check',
      'tooth-etch',
      'tooth-etch-rinse',
      'abutment-primer',
      'bond',
      'bond-thin',
    ]);
    expect(step(plan, 'bond')?.todo).toMatch(/^26: /);
    expect(step(plan, 'bond-thin')?.todo).toMatch(
      /26: Air until no ripple.* 24: Gentle oil-free air/,
    );
    expect(step(plan, 'residual')?.todo).toMatch(
      /26: .*24: Explorer and floss all round, and a radiograph/,
    );
  });

  test('enamel beside dentin: the acid no longer than on dentin, on the enamel first', () => {
    const plan = planOf(bridge('dentin', 'enamel'));
    const etch = step(plan, 'tooth-etch');
    expect([etch?.dwell?.minS, etch?.dwell?.targetS, etch?.dwell?.maxS]).toEqual([10, 12, 15]);
    expect(etch?.todo).toContain('Acid on 24 8 s before, on 26 last: the time runs from there.');
    // The longer of the two rinses.
    expect(step(plan, 'tooth-etch-rinse')?.dwell?.minS).toBe(15);
  });

  test('a bridge on one substrate plans as it did, and so does an old case file', () => {
    const same = planOf(bridge('dentin', 'dentin'));
    const old = planOf(bridge('dentin', undefined));
    expect(same.steps).toEqual(old.steps);
    expect(old.steps.some(({ todo }) => /^2[46]: /.test(todo))).toBe(false);
  });

  test('what is wrong names the field', () => {
    const [seat, ...more] = problemsOf(bridge('dentin', 'titanium-base'));
    expect([seat?.field, more]).toEqual(['units[0].bridge.retainers[0].substrate', []]);
    expect(seat?.message).toMatch(
      /^retainer 24 of a bridge does not sit on "titanium-base"; allowed: "dentin"/,
    );
    expect(problemsOf(bridge('dentin', 'base-metal-core'), {})).toEqual([
      {
        field: 'shelf.metalPrimer',
        message:
          'base-metal post and core (tooth 24) is primed under a resin cement; allowed: a metal primer on the shelf, or an acid-base cement where form holds',
      },
    ]);
    const both = problemsOf(bridge('noble-metal-core', 'base-metal-core'), {
      metalPrimer: { label: 'metal primer', monomer: 'phosphate' },
    });
    expect(both.map(({ field }) => field)).toEqual(['shelf.metalPrimer.monomer']);
    const given = bridge('dentin', undefined);
    const wrong = { ...given.bridge, retainers: [{ tooth: '24', substrate: 'bone' }] };
    const checked = checkCase({ ...caseInput([]), units: [{ ...given, bridge: wrong }] });
    expect(checked.ok ? [] : checked.problems.map(({ field }) => field)).toEqual([
      'units[0].bridge.retainers[0].substrate',
    ]);
  });
});

describe('at the chair', () => {
  test('neither kind of retainer is clean by the cleaning of the other', () => {
    const made = mixedBridge('dentin', 'titanium-abutment', 'adhesive-resin-dual');
    if (made === null) throw new Error('a bridge');
    const chair = new Operatory(made).until('pumice').doStep();
    expect(chair.unit.now.prep).toBe('exposed');
    chair.doStep();
    expect(chair.unit.now.prep).toBe('clean');
    chair.must({ type: 'soil', surface: 'prep', contaminant: 'saliva' });
    chair.must({ type: 'finish', step: 'abutment-clean' });
    expect(chair.say({ type: 'begin', step: 'tooth-etch' })).toMatchObject({
      refusal: { id: 'prep-not-clean', wayOn: 'pumice' },
    });
  });

  test('a cleaning begun anew is owed until it ends, whatever else is cleaned meanwhile', () => {
    const made = mixedBridge('dentin', 'titanium-abutment', 'adhesive-resin-dual');
    if (made === null) throw new Error('no such bridge');
    const chair = new Operatory(made).until('mix');
    expect(chair.unit.now.prep).toBe('ready');
    chair.must({ type: 'begin', step: 'abutment-clean' });
    chair.must({ type: 'finish', step: 'prep-clean' });
    expect(chair.unit.now.prep).toBe('exposed');
    chair.must({ type: 'finish', step: 'abutment-clean' });
    expect(chair.unit.now.prep).toBe('clean');
  });

  test('a primer on one retainer leaves the etch of the other standing; the bond waits for it', () => {
    const made = mixedBridge('dentin', 'noble-metal-core', 'adhesive-resin-dual');
    if (made === null) throw new Error('a bridge');
    const chair = new Operatory(made).until('core-primer');
    expect(chair.say({ type: 'begin', step: 'bond' })).toMatchObject({
      refusal: { id: 'first', wayOn: 'core-primer', because: 'own-primer-missing' },
    });
    chair.doStep().doStep();
    expect(chair.unit.now.prep).toBe('coated');
    chair.doStep();
    expect(chair.unit.now.prep).toBe('ready');
  });

  test('every pair under every cement that may go on it comes to a seated bridge', () => {
    const all = mixedBridges();
    expect(all.length).toBeGreaterThan(100);
    for (const made of all) {
      const chair = new Operatory(made).until('flash');
      expect(chair.unit.now.where).toBe('seated');
    }
  });
});
