export type { IntaglioState } from './route.ts';
export { intaglioRoute, needsPrimer, prepRoute } from './route.ts';
export { afterTryIn } from './steps.ts';
export { makePlan } from './make-plan.ts';
export { cleans } from '../trade/index.ts';
