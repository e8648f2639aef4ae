export { caseSchema } from './allowed.ts';
export { checkCase } from './check-case.ts';
export { makePlan } from './make-plan.ts';
export { intaglioRoute, needsPrimer, prepRoute } from './route.ts';
export { cleans } from '../trade/index.ts';
