export { frustum } from './frustum.ts';
export { readGs1 } from './gs1.ts';
export { behind, exposure, secondsFor } from './light-dose.ts';
export {
  convergence,
  groovedConvergence,
  heightToBase,
  lastConvergence,
  limitingConvergence,
} from './resistance.ts';
export { relativeRetention, retentionN, seatingLift } from './retention.ts';
export { atTemperature } from './temperature.ts';
export {
  fromPalmer,
  fromPrimaryLetter,
  fromUniversal,
  palmerOf,
  primaryLetterOf,
  primaryName,
  readTooth,
  toothClass,
  toothName,
  toothSpoken,
  universalOf,
} from './tooth.ts';
