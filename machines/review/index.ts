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
