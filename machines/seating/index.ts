export { caseMachine } from './case.ts';
export type { Pending, Refused } from './case.ts';
export type { Facts, Progress, Regions, RunningDwell, UnitContext, UnitEvent } from './context.ts';
export { whyFinal } from './cause.ts';
export { isLong, servedAt, servedMs, shortByS, windowOf } from './dwell.ts';
export { staleAt } from './fresh.ts';
export { gate, refusalOf } from './gates.ts';
export { plainRefusal, refusal } from './refuse.ts';
export { RULES, spoilsAt } from './rules.ts';
export type { RuleName } from './rules.ts';
export type { UnitInput } from './setup.ts';
export {
  asked,
  CURES,
  INTAGLIO_STEPS,
  MOMENTS,
  nextStep,
  planStep,
  PREP_STEPS,
  READ_BACK,
} from './steps.ts';
export { unitMachine } from './unit.ts';
