import type { CaseFile, Plan } from '../contract/index.ts';

/** Case facts and shelf to a plan. Throws nothing for facts that `CheckCase` lets through. */
export type MakePlan = (caseFile: CaseFile) => Plan;

/** One thing wrong with a case: where, as `units[0].tooth`, and what is allowed there. */
export interface CaseProblem {
  readonly field: string;
  readonly message: string;
}

/** Anything to a case, or every problem it has, at once. */
export type CheckCase = (
  given: unknown,
) =>
  | { readonly ok: true; readonly case: CaseFile }
  | { readonly ok: false; readonly problems: readonly CaseProblem[] };
