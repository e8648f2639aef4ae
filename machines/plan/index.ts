export type { IntaglioState } from './route.ts';
export { intaglioRoute, needsPrimer, prepRoute } from './route.ts';
export { cleans } from '../trade/materials.ts';
export type { MakePlan, CheckCase, CaseProblem } from './signatures.ts';
