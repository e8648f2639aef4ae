import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CaseFile, Plan, STEPS } from '../../machines/contract/index.ts';
import type { StepId } from '../../machines/contract/index.ts';
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import { anyCase, soundCase } from './case-arbitrary.ts';
import { neverOn } from './never-on.ts';

/** Steps no unit does without. */
const ALWAYS: readonly StepId[] = [
  'case-check',
  'history',
  'equipment',
  'intaglio-dry',
  'mix',
  'load',
  'seat',
  'flash',
  'bite-after',
  'polish',
  'instructions',
  'lots',
];
/** Steps of everything that is seated in the mouth. */
const IN_MOUTH: readonly StepId[] = [
  'disinfect',
  'airway',
  'try-in',
  'contacts',
  'margins',
  'approval',
  'take-out',
  'isolate',
  'dry-check',
  'floss',
  'isolation-out',
  'residual',
];
/** Steps of what is bonded to its base on the bench. */
const ON_BENCH: readonly StepId[] = [
  'base-abrade',
  'joint-finish',
  'screw-in',
  'torque',
  'access-close',
];

test('every sound case has a plan that passes its schema, one for each unit', () => {
  fc.assert(
    fc.property(soundCase, (caseFile) => {
      const plan = makePlan(caseFile);
      expect(Plan.parse(plan)).toEqual(plan);
      expect(plan.units.map(({ tooth }) => tooth)).toEqual(
        caseFile.units.map(({ tooth }) => tooth),
      );
      expect(makePlan(caseFile)).toEqual(plan);
    }),
    { numRuns: 60 },
  );
});

test('steps stand in the order of the appointment, none twice, none forbidden, none missing', () => {
  fc.assert(
    fc.property(soundCase, (caseFile) => {
      for (const [index, unit] of makePlan(caseFile).units.entries()) {
        const base = caseFile.units[index]?.substrate === 'titanium-base';
        const planned = unit.steps.map(({ id }) => id);
        const spare = unit.spare.map(({ id }) => id);
        expect(planned).toEqual(STEPS.filter((step) => planned.includes(step)));
        expect(planned.filter((step) => spare.includes(step))).toEqual([]);
        expect(
          [...planned, ...spare].filter((step) => neverOn(unit.material).includes(step)),
        ).toEqual([]);
        const [own, others] = base ? [ON_BENCH, IN_MOUTH] : [IN_MOUTH, ON_BENCH];
        expect([...ALWAYS, ...own].filter((step) => !planned.includes(step))).toEqual([]);
        expect(others.filter((step) => planned.includes(step))).toEqual([]);
      }
    }),
    { numRuns: 200 },
  );
});

test('windows stand in order, acid stays 15 s at most on dentin, every step has words', () => {
  fc.assert(
    fc.property(soundCase, (caseFile) => {
      for (const [index, unit] of makePlan(caseFile).units.entries()) {
        for (const { id, dwell, title, todo, why } of [...unit.steps, ...unit.spare]) {
          expect([title, todo, why].filter((text) => text === '')).toEqual([]);
          if (dwell === null) continue;
          expect(dwell.minS).toBeLessThanOrEqual(dwell.targetS);
          expect(dwell.targetS).toBeLessThanOrEqual(dwell.maxS ?? Infinity);
          if (id === 'tooth-etch' && caseFile.units[index]?.substrate === 'dentin') {
            expect(dwell.maxS).toBeLessThanOrEqual(15);
          }
        }
      }
    }),
    { numRuns: 150 },
  );
});

test('a plan needs nothing the shelf lacks, and an unbonded cement only sits on a form that holds', () => {
  fc.assert(
    fc.property(soundCase, (caseFile) => {
      const { shelf } = caseFile;
      const lacking = new Set<StepId>([
        ...(shelf.abrasion === null ? (['abrade', 'base-abrade'] as const) : []),
        ...(shelf.cleaner === null ? (['cleaner'] as const) : []),
        ...(shelf.hydrofluoricAcid === null ? (['porcelain-etch'] as const) : []),
        ...(shelf.phosphoricAcid === null ? (['acid-clean', 'tooth-etch'] as const) : []),
        ...(shelf.silane === null ? (['silane'] as const) : []),
        ...(shelf.phosphatePrimer === null
          ? (['zirconia-primer', 'abutment-primer'] as const)
          : []),
        ...(shelf.metalPrimer === null ? (['metal-primer', 'core-primer'] as const) : []),
        ...(shelf.adhesive === null ? (['bond'] as const) : []),
        ...(shelf.light === null
          ? (['tack', 'cure-occlusal', 'cure-buccal', 'cure-lingual'] as const)
          : []),
      ]);
      for (const unit of makePlan(caseFile).units) {
        const all = [...unit.steps, ...unit.spare].map(({ id }) => id);
        expect(all.filter((step) => lacking.has(step))).toEqual([]);
        if (!unit.cement.class.startsWith('adhesive-resin'))
          expect(unit.retention.holds).toBe(true);
      }
    }),
    { numRuns: 150 },
  );
});

test('checkCase throws at nothing, and lets through only what the schema does', () => {
  fc.assert(
    fc.property(fc.oneof(anyCase, fc.anything()), (given) => {
      const checked = checkCase(given);
      if (checked.ok) expect(CaseFile.parse(given)).toEqual(checked.case);
      else expect(checked.problems.length).toBeGreaterThan(0);
    }),
    { numRuns: 200 },
  );
});
