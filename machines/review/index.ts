export { counterfactual } from './counterfactual.ts';
export type { Counterfactual, Guarded } from './counterfactual.ts';
export { GRADES } from './deviation.ts';
export type {
  Alignment,
  Grade,
  GradedDeviation,
  GuardHit,
  Measured,
  Move,
  ReviewedRecord,
  ReviewedUnit,
  ServedDwell,
} from './deviation.ts';
export { TooHard } from './align/found.ts';
export { Reviewer } from './review.ts';
export type { ReadRecord } from './review.ts';
export { NotASeating, planNet } from './net/plan-net.ts';
export type { ProcessNet } from './net/process-net.ts';
export type { Activity } from './trace/activity.ts';
export { traceOf } from './trace/trace.ts';
