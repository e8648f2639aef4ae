import type { StepId } from '../contract/index.ts';
import { AFTER } from './cards-after.ts';
import { BEFORE } from './cards-before.ts';
import { CEMENT } from './cards-cement.ts';
import { INTAGLIO } from './cards-intaglio.ts';
import { TOOTH } from './cards-tooth.ts';
import type { Cards } from './card.ts';

/** Every step a plan can hold. */
export const CARDS: Cards<StepId> = {
  ...BEFORE,
  ...INTAGLIO,
  ...TOOTH,
  ...CEMENT,
  ...AFTER,
};
