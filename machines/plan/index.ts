export { caseSchema } from './allowed.ts';
export { checkCase } from './check-case.ts';
export type { CheckedCase } from './check-case.ts';
export { makePlan } from './make-plan.ts';
export { KIND_NAME, kindTitle } from './noun.ts';
export { prepRoute } from './prep-route.ts';
export { intaglioRoute, needsPrimer } from './route.ts';
export { cleans } from '../trade/index.ts';
