/**
 * The hazards of a seating and where they are, from the trade reference, section 10 (Özcan M et al. Clin Oral
 * Investig 2012;16:15-23 for hydrofluoric acid, from memory; the rest is common practice, no source).
 */
import { describe, expect, test } from 'vitest';
import type { CautionId, StepId } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { combinations } from '../chair/combinations.ts';

/** Each hazard, the steps it is in, and what must stand in what is said of it. */
const HAZARDS: readonly (readonly [CautionId, readonly StepId[], readonly RegExp[]])[] = [
  [
    'hydrofluoric-acid',
    ['porcelain-etch', 'porcelain-etch-rinse'],
    [/outside the mouth/, /face shield/, /calcium gluconate 2\.5 %/, /15 minutes/],
  ],
  ['alkaline-cleaner', ['cleaner', 'cleaner-rinse'], [/outside the mouth/, /eye/, /rinse/]],
  ['abrasion-dust', ['abrade', 'base-abrade', 'prep-roughen'], [/box/, /extraction/, /[Mm]ask/]],
  [
    'phosphoric-acid',
    ['acid-clean', 'acid-clean-rinse', 'tooth-etch', 'tooth-etch-rinse'],
    [/eyes/, /suction/],
  ],
  [
    'resin-allergy',
    ['history', 'silane', 'zirconia-primer', 'metal-primer', 'core-primer', 'bond', 'access-close'],
    [/no touch/, /change gloves/],
  ],
  ['blue-light', ['tack', 'cure-buccal', 'cure-lingual', 'access-close'], [/shield for all/]],
  [
    'aspiration',
    ['airway', 'try-in', 'take-out', 'screw-in', 'torque'],
    [/throat pack/, /upright/],
  ],
];

describe('a caution where the hazard is', () => {
  const all = combinations();
  const plans = all
    .filter(({ material }) =>
      ['zirconia-3y', 'lithium-disilicate', 'noble-metal'].includes(material),
    )
    .map((each) => makePlan(each.case));

  test.each(HAZARDS)('%s', (id, where, says) => {
    const steps = plans.flatMap((plan) =>
      plan.units.flatMap((unit) => [...unit.steps, ...unit.spare]),
    );
    for (const step of where) {
      const found = steps.filter((one) => one.id === step);
      expect(found.length).toBeGreaterThan(0);
      expect(found.every(({ cautions }) => cautions.includes(id))).toBe(true);
    }
    const texts = plans.flatMap(({ cautions }) => cautions.filter((one) => one.id === id));
    for (const said of says) expect(texts.every(({ text }) => said.test(text))).toBe(true);
  });

  test('heat is cautioned where a pulp may lie under it, and nowhere else', () => {
    for (const { case: caseFile, substrate } of all) {
      const [unit] = makePlan(caseFile).units;
      const lit = unit?.steps.find(({ id }) => id === 'cure-buccal');
      if (lit === undefined) continue;
      const abutment = /abutment|base$/.test(substrate) && !substrate.endsWith('core');
      expect(lit.cautions.includes('heat')).toBe(!abutment);
    }
  });
});
