import type { PlanStep, StepId } from '../contract/index.ts';
import { STEPS } from '../contract/index.ts';
import type { UnitContext } from './context.ts';

/** Acts that are done in the moment they begin. */
export const MOMENTS: readonly StepId[] = ['mix', 'load'];

/** What cannot be taken back is read back first (law 8). `cure-*` is asked once, at the first surface. */
export const CURES: readonly StepId[] = ['cure-occlusal', 'cure-buccal', 'cure-lingual'];
export const READ_BACK: readonly StepId[] = ['porcelain-etch', 'mix', 'seat', ...CURES];

/** Agents that lie on the intaglio until rinsed; ended short they do not count. */
export const INTAGLIO_AGENTS: readonly StepId[] = ['cleaner', 'acid-clean', 'porcelain-etch'];
/** What takes each agent off again. */
export const RINSE_OF: Partial<Record<StepId, StepId>> = {
  cleaner: 'cleaner-rinse',
  'acid-clean': 'acid-clean-rinse',
  'porcelain-etch': 'porcelain-etch-rinse',
};
export const INTAGLIO_COATS: readonly StepId[] = ['silane', 'zirconia-primer', 'metal-primer'];

/** What cleans or conditions the intaglio: what was there before is no more. */
export const TREATMENTS: readonly StepId[] = [...INTAGLIO_AGENTS, 'abrade'];
/** What works on the intaglio alone: nothing else there while one of these runs. */
export const BUSY: readonly StepId[] = [...TREATMENTS, ...INTAGLIO_COATS];

/** Steps of the intaglio and of the prep that a contamination can make due again. */
export const INTAGLIO_STEPS: readonly StepId[] = between('intaglio-rinse', 'primer-dry');
export const PREP_STEPS: readonly StepId[] = between('pumice', 'prep-dry');
export const PREP_PRIMERS: readonly StepId[] = ['core-primer', 'abutment-primer'];
/** What is put on a clean prep. */
export const PREP_COATS: readonly StepId[] = between('tooth-etch', 'prep-dry');
/** What makes a prep clean: each plan has one of them, a bridge on teeth and abutments two. */
export const CLEANED: readonly StepId[] = ['pumice', 'abutment-clean', 'base-abrade'];

/** The cleanings of a plan with several that are owed beside `step`, which may stand for one of them. */
export function uncleaned(context: UnitContext, step: StepId | null): readonly StepId[] {
  const planned = CLEANED.filter((id) => context.plan.steps.some((one) => one.id === id));
  if (planned.length < 2) return [];
  const stands = (id: StepId): boolean =>
    id === step || (id === 'pumice' && step === 'prep-clean') || context.steps[id] === 'done';
  return planned.filter((id) => !stands(id));
}

/** Steps that put cement on the restoration; due again when that cement is lost. */
export const CEMENT_STEPS: readonly StepId[] = ['mix', 'load'];
/** From the mix to the set: all of it is given up by starting over. */
export const CEMENTING: readonly StepId[] = between('mix', 'set');

function between(first: StepId, last: StepId): readonly StepId[] {
  return STEPS.slice(STEPS.indexOf(first), STEPS.indexOf(last) + 1);
}

/** The plan's step by id, looked for among the spare ones too; null when this unit can't have it. */
export function planStep(context: UnitContext, id: StepId): PlanStep | null {
  const same = (step: PlanStep): boolean => step.id === id;
  return context.plan.steps.find(same) ?? context.plan.spare.find(same) ?? null;
}

/** Steps this unit asks for as things stand, in the order of the appointment. */
export function asked(context: UnitContext): readonly StepId[] {
  const planned = new Set(context.plan.steps.map((step) => step.id));
  // What was forced on without a plan is never due again: there is nothing to say of it.
  const done = (id: StepId): boolean =>
    context.steps[id] !== undefined && planStep(context, id) !== null;
  return STEPS.filter((id) => {
    if (INTAGLIO_STEPS.includes(id)) return context.routes.intaglio.includes(id) || done(id);
    if (PREP_STEPS.includes(id)) return context.routes.prep.includes(id) || done(id);
    return planned.has(id);
  });
}

/** The first step still to do, or null when all are done or skipped. */
export function nextStep(context: UnitContext): StepId | null {
  if (context.focus !== null) return context.focus;
  const open = (id: StepId): boolean =>
    context.steps[id] === undefined || context.steps[id] === 'again';
  return asked(context).find(open) ?? null;
}
