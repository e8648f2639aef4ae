export { caseSchema } from './allowed.ts';
export { checkCase } from './check-case.ts';
export type { CheckedCase } from './check-case.ts';
export { makePlan } from './make-plan.ts';
export type { CaseProblem } from './problem.ts';
export type { IntaglioState } from './route.ts';
export { intaglioRoute, needsPrimer, prepRoute } from './route.ts';
export { afterTryIn } from './steps.ts';
export { cleans } from '../trade/index.ts';
