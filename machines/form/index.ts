export { frustum } from './frustum.ts';
export { behind, exposure, secondsFor } from './light-dose.ts';
export { convergence, heightToBase, limitingConvergence } from './resistance.ts';
export { atTemperature } from './temperature.ts';
export {
  fromUniversal,
  readTooth,
  toothClass,
  toothName,
  toothSpoken,
  universalOf,
} from './tooth.ts';
