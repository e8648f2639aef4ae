import { describe, expect, test } from 'vitest';
import { CEMENT_CLASSES, MATERIALS, SUBSTRATES } from '../../../machines/contract/index.ts';
import type { CauseId, Material, Refusal, StepId } from '../../../machines/contract/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { combined } from '../../chair/combinations.ts';
import { DISILICATE, inventedCase, SHELF, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

const PRIMER = { metalPrimer: { label: 'metal primer', monomer: 'both' } } as const;
const crown = (material: Material) =>
  inventedCase([{ ...ZIRCONIA, material, thicknessMm: 2, intaglioFromLab: 'untreated' }], {
    shelf: { ...SHELF, ...PRIMER },
  });
const refusalOf = (chair: Operatory, step: StepId): Refusal | null => {
  const outcome = chair.say({ type: 'begin', step });
  return outcome.kind === 'refused' ? outcome.refusal : null;
};
const said = (refusal: Refusal | null): string =>
  refusal === null ? 'taken' : callText({ id: 'refusal', refusal });

/** A crown of this material, tried in, out again and dirty. */
const onBench = (material: Material): Operatory =>
  new Operatory(crown(material)).until('take-out').doStep();

describe('an agent on a material that it does not suit', () => {
  // Trade reference, 1C to 1E, each with what 1C or 1D has instead.
  const wrong: readonly (readonly [Material, StepId, CauseId, StepId])[] = [
    ['zirconia-3y', 'acid-clean', 'phosphate-takes-sites', 'abrade'],
    ['zirconia-3y', 'porcelain-etch', 'etch-finds-no-glass', 'abrade'],
    ['zirconia-3y', 'silane', 'silane-finds-no-silica', 'zirconia-primer'],
    ['zirconia-3y', 'metal-primer', 'metal-primer-on-oxide', 'zirconia-primer'],
    ['alumina', 'acid-clean', 'phosphate-takes-sites', 'abrade'],
    ['alumina-infiltrated', 'porcelain-etch', 'etch-dissolves-infiltrate', 'abrade'],
    ['lithium-disilicate', 'abrade', 'abrasion-chips-glass', 'porcelain-etch'],
    ['lithium-disilicate', 'cleaner', 'cleaner-not-shown', 'porcelain-etch'],
    ['lithium-disilicate', 'zirconia-primer', 'phosphate-primer-on-glass', 'silane'],
    ['lithium-disilicate', 'metal-primer', 'metal-primer-on-glass', 'silane'],
    ['polymer-infiltrated', 'acid-clean', 'phosphate-on-network', 'porcelain-etch'],
    ['resin-matrix', 'porcelain-etch', 'etch-eats-filler', 'abrade'],
    ['resin-matrix', 'acid-clean', 'phosphate-on-filler', 'abrade'],
    ['resin-matrix', 'cleaner', 'cleaner-not-shown', 'abrade'],
    ['resin-matrix', 'zirconia-primer', 'phosphate-primer-on-filler', 'silane'],
    ['noble-metal', 'porcelain-etch', 'etch-corrodes-metal', 'abrade'],
    ['noble-metal', 'acid-clean', 'phosphate-on-metal', 'abrade'],
    ['noble-metal', 'silane', 'silane-finds-no-silica', 'metal-primer'],
    ['noble-metal', 'zirconia-primer', 'phosphate-primer-on-noble', 'metal-primer'],
    ['base-metal', 'zirconia-primer', 'phosphate-primer-is-metal-primer', 'metal-primer'],
  ];
  test.each(wrong)(
    '%s: %s is refused because %s, and %s instead',
    (material, step, because, way) => {
      const refusal = refusalOf(onBench(material), step);
      expect(refusal).toMatchObject({ step, because, wayOn: way });
      expect(said(refusal)).toMatch(/ Instead, [a-z ]+\./);
    },
  );

  test('no material is left with a bare "not for this material"', () => {
    const chemistry = [
      'etch-not-etchable',
      'silane-on-zirconia',
      'abrade-glass',
      'primer-on-glass',
    ];
    const agents: readonly StepId[] = [
      ...(['cleaner', 'acid-clean', 'porcelain-etch', 'abrade'] as const),
      ...(['silane', 'zirconia-primer', 'metal-primer'] as const),
    ];
    const bare = MATERIALS.flatMap((material) =>
      agents.flatMap((step) => {
        const refusal = refusalOf(onBench(material), step);
        const known = [...chemistry, 'acid-before-primer', 'wrong-primer', 'cleaner-on-glass'];
        return refusal !== null && known.includes(refusal.id) && refusal.because === undefined
          ? [`${material} ${step} ${refusal.id}`]
          : [];
      }),
    );
    expect(bare).toEqual([]);
  });

  test('as it is said: why, and what would be acceptable', () => {
    expect(said(refusalOf(onBench('zirconia-3y'), 'acid-clean'))).toBe(
      'Refused. Phosphoric acid takes the places its primer needs. Instead, sandblasting. No override.',
    );
    const chair = new Operatory(inventedCase([ZIRCONIA])).until('zirconia-primer');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'acid' });
    // Here the cleaner takes no one's place: once it has been on, the primer may go on.
    expect(said(refusalOf(chair, 'zirconia-primer'))).toBe(
      'Refused. Phosphoric acid takes the places its primer needs. First, cleaner. No override.',
    );
  });
});

describe('what would else be a bare reason', () => {
  const chair = () => new Operatory(inventedCase([ZIRCONIA]));

  test('in the mouth: what burns, what makes dust, and what only is too early', () => {
    const tried = chair().until('contacts');
    const steps = ['cleaner', 'abrade', 'zirconia-primer', 'seat'] as const;
    expect(steps.map((step) => said(refusalOf(tried, step)).split('. First')[0])).toEqual([
      'Refused. Never in the mouth. It burns',
      'Refused. Sandblasting is never done in the mouth',
      'Refused. The inside is treated outside the mouth only',
      'Refused. It is in the mouth still, and saliva is on it',
    ]);
  });

  test('something comes first: it is said what is not so', () => {
    const seated = chair().until('tack');
    expect(refusalOf(seated, 'cure-buccal')).toMatchObject({
      id: 'first',
      wayOn: 'flash',
      because: 'flash-on',
    });
    const refused = seated.say({ type: 'finish', step: 'residual' });
    expect(refused).toMatchObject({ refusal: { id: 'first', because: 'cement-not-set' } });
    const blood = new Operatory(inventedCase([{ ...DISILICATE, intaglioFromLab: 'etched' }]));
    blood.until('take-out').doStep();
    blood.must({ type: 'soil', surface: 'intaglio', contaminant: 'blood' });
    const silicone = refusalOf(blood, 'acid-clean');
    expect([silicone?.id, silicone?.wayOn]).toEqual(['silicone-needs-etch', 'porcelain-etch']);
  });

  test('not in the plan: it is said why not', () => {
    const ionomer = new Operatory(
      inventedCase([{ ...ZIRCONIA, cement: 'resin-modified glass ionomer' }]),
    );
    ionomer.until('prep-moist');
    expect(refusalOf(ionomer, 'bond')?.because).toBe('no-bond-under-cement');
    expect(refusalOf(ionomer, 'zirconia-primer')?.because).toBe('cement-takes-no-primer');
    const selfEtch = new Operatory(inventedCase([{ ...ZIRCONIA, bonding: 'self-etch' }]));
    expect(refusalOf(selfEtch.until('bond'), 'tooth-etch')?.because).toBe('self-etch');
  });

  test('a refusal for good says so, and goes on naming the way on', () => {
    const bench = onBench('zirconia-3y');
    refusalOf(bench, 'acid-clean');
    expect(bench.say({ type: 'override', reason: 'clinical-judgement' })).toMatchObject({
      refusal: { id: 'no-override', because: 'harms', wayOn: 'abrade' },
    });
    const cleaning = chair().until('cleaner').must({ type: 'begin', step: 'cleaner' }).wait(5);
    cleaning.say({ type: 'finish' });
    expect(cleaning.say({ type: 'override', reason: 'clinical-judgement' })).toMatchObject({
      refusal: { id: 'no-override', because: 'only-short', wayOn: null },
    });
  });
});

test('a step that any combination could be asked for and does not plan has its reason', () => {
  const asked = ['bond', 'tooth-etch', 'tack', 'cure-occlusal', 'core-primer'] as const;
  const each: readonly Material[] = ['zirconia-3y', 'lithium-disilicate', 'noble-metal'];
  const some = each.flatMap((material) =>
    (['crown', 'implant-crown'] as const).flatMap((kind) =>
      SUBSTRATES.flatMap((substrate) =>
        CEMENT_CLASSES.map((cement) => ({ material, kind, substrate, cement })),
      ),
    ),
  );
  const bare = some.flatMap((wanted) => {
    const caseFile = combined(wanted);
    if (caseFile === null) return [];
    const chair = new Operatory(caseFile).until('mix');
    return asked.flatMap((step) => {
      const refusal = refusalOf(chair, step);
      const planless = refusal?.id === 'not-planned' && refusal.because === undefined;
      return planless && step !== 'core-primer' ? [`${JSON.stringify(wanted)} ${step}`] : [];
    });
  });
  expect(bare).toEqual([]);
});
