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
export { TooHard } from './align/search.ts';
export { NotASeating } from './net/plan-net.ts';
export { Reviewer } from './review.ts';
export type { ReadRecord } from './review.ts';
