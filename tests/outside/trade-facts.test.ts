/**
 * Facts of the trade asked of plans and checks. Those of the list this work began with are common practice
 * and have no source; others name theirs.
 */
import { describe, expect, test } from 'vitest';
import { CaseFile, type CaseInput } from '../../machines/contract/index.ts';
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import { CAUTION_TEXTS } from '../../machines/trade/index.ts';
import { caseInput, disilicateUnit, zirconiaUnit } from '../case-samples.ts';

type Unit = CaseInput['units'][number];
const planOf = (unit: Unit) => {
  const [plan] = makePlan(CaseFile.parse(caseInput([unit]))).units;
  if (plan === undefined) throw new Error('no plan');
  return plan;
};
const stepsOf = (unit: Unit) => planOf(unit).steps.map(({ id }) => id);
const faults = (unit: Unit) => {
  const checked = checkCase(caseInput([unit]));
  return checked.ok ? [] : checked.problems;
};

describe('common practice, no source', () => {
  test('a veneered zirconia frame needs 1.5 to 2 mm, and so is no crown for a lower second molar', () => {
    const veneered: Unit = { ...zirconiaUnit, material: 'zirconia-veneered', thicknessMm: 1.5 };
    expect(faults(veneered)).toEqual([]);
    expect(faults({ ...veneered, thicknessMm: 1.4 }).map(({ field }) => field)).toEqual([
      'units[0].thicknessMm',
    ]);
    for (const tooth of ['37', '47']) {
      const [fault, ...more] = faults({ ...veneered, tooth, thicknessMm: 2 });
      expect([fault?.field, more]).toEqual(['units[0].material', []]);
      expect(fault?.message).toContain('1.5 to 2 mm');
    }
    expect(faults({ ...veneered, tooth: '17', thicknessMm: 2 })).toEqual([]);
    const asked = { ...veneered, tooth: '47', belowMinimumReason: 'opposes a denture' };
    expect(faults({ ...asked, thicknessMm: 1.2 })).toEqual([]);
  });

  test('at 4 mm of prep height form holds by itself, and conventional cement is possible', () => {
    const tall: Unit = {
      ...zirconiaUnit,
      prep: { heightMm: 4, convergenceDeg: 14, widthMm: 11 },
      cement: 'ionomer',
    };
    expect(planOf(tall).retention.holds).toBe(true);
    expect(faults(tall)).toEqual([]);
    const short = { ...tall, prep: { heightMm: 3.4, convergenceDeg: 14, widthMm: 11 } };
    expect(planOf(short).retention.holds).toBe(false);
    expect(faults(short).map(({ field }) => field)).toEqual(['units[0].cement']);
  });

  test('zirconia takes a phosphate primer, or a cement that carries phosphate itself and then none', () => {
    expect(stepsOf(zirconiaUnit)).toContain('zirconia-primer');
    expect(stepsOf({ ...zirconiaUnit, cement: 'self-adhesive' })).not.toContain('zirconia-primer');
  });

  test('lithium disilicate: etched by hydrofluoric acid, cleaned by phosphoric acid after saliva, etched again after silicone', () => {
    const bare = stepsOf(disilicateUnit);
    const etched = stepsOf({ ...disilicateUnit, intaglioFromLab: 'etched' });
    const silicone = stepsOf({ ...disilicateUnit, intaglioFromLab: 'etched', fitPaste: true });
    expect([bare, etched, silicone].map((ids) => ids.includes('porcelain-etch'))).toEqual([
      true,
      false,
      true,
    ]);
    expect(etched).toContain('acid-clean');
    expect(silicone).not.toContain('acid-clean');
  });

  test('the alkaline cleaner: 20 s, rinsed, pH 13 to 13.5, never in the mouth, eyes and gloves', () => {
    const cleaner = planOf(zirconiaUnit).steps.find(({ id }) => id === 'cleaner');
    expect(cleaner?.dwell?.targetS).toBe(20);
    expect(cleaner?.cautions).toContain('alkaline-cleaner');
    expect(CAUTION_TEXTS['alkaline-cleaner']).toMatch(
      /pH 13 to 13\.5.*outside the mouth only.*Gloves and eye protection.*rinse/u,
    );
    expect(stepsOf(zirconiaUnit)).toContain('cleaner-rinse');
  });
});

describe('published', () => {
  // Leevailoj C et al. J Prosthet Dent 1998;80:699-707 (from memory): resin-modified glass ionomer swells.
  test('no resin-modified glass ionomer under weak glass', () => {
    for (const material of ['feldspathic', 'leucite', 'polymer-infiltrated'] as const) {
      const weak: Unit = { ...disilicateUnit, tooth: '11', material, thicknessMm: 2 };
      expect(faults({ ...weak, cement: 'ionomer' }).map(({ field }) => field)).toEqual([
        'units[0].cement',
      ]);
      expect(faults(weak)).toEqual([]);
    }
  });

  // Hummel M, Kern M. Dent Mater 2004;20:498-508: unabraded alumina had all come off by 150 days.
  test('alumina is abraded and primed', () => {
    const alumina = stepsOf({
      ...zirconiaUnit,
      material: 'alumina',
      thicknessMm: 1.6,
      intaglioFromLab: 'untreated',
    });
    expect(alumina).toContain('abrade');
    expect(alumina).toContain('zirconia-primer');
  });

  // Burkhardt F et al., Univ. Geneva archive, about 2021: no cleaning restored a titanium base after saliva.
  test('a titanium base is bonded before anything goes into the mouth', () => {
    const ids = stepsOf({
      ...zirconiaUnit,
      kind: 'implant-crown',
      substrate: 'titanium-base',
      provisionalCement: 'none',
    });
    expect(ids.filter((id) => ['try-in', 'isolate', 'take-out'].includes(id))).toEqual([]);
    expect(ids.indexOf('base-abrade')).toBeLessThan(ids.indexOf('abutment-primer'));
    expect(ids.indexOf('seat')).toBeLessThan(ids.indexOf('screw-in'));
  });

  // Ferraz LN et al. JSM Dent 2018;6:1105; PMC3198552: a week after bleaching.
  test('no bonding within a week of bleaching', () => {
    const veneer: Unit = {
      ...disilicateUnit,
      tooth: '11',
      kind: 'veneer',
      substrate: 'enamel',
      thicknessMm: 0.6,
      bleachedDaysAgo: 6,
    };
    expect(faults(veneer).map(({ field }) => field)).toEqual(['units[0].bleachedDaysAgo']);
    expect(faults({ ...veneer, bleachedDaysAgo: 7 })).toEqual([]);
  });

  // Sanares AME et al. Dent Mater 2001;17:542-556; Tay FR et al. J Adhes Dent 2003;5:27-40 (both from memory).
  test('an acidic adhesive and an amine-cured resin only with an activator', () => {
    const shelf = (activator: boolean): CaseInput['shelf'] => ({
      ...caseInput([]).shelf,
      adhesive: { label: 'adhesive', acidic: true, activator },
      cements: [{ label: 'adhesive', class: 'adhesive-resin-dual', amine: true }],
    });
    const given = (activator: boolean) => ({
      ...caseInput([zirconiaUnit]),
      shelf: shelf(activator),
    });
    const checked = checkCase(given(false));
    expect(checked.ok ? [] : checked.problems.map(({ field }) => field)).toEqual([
      'units[0].cement',
    ]);
    expect(checkCase(given(true)).ok).toBe(true);
  });
});
