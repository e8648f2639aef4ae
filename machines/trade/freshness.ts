import type { StepId } from '../contract/index.ts';
import { practice } from './number.ts';
import type { Quantity } from './number.ts';

/** How long what a step leaves stays good (trade reference, 9B). */
export interface Freshness {
  readonly within: Quantity;
  /** The steps that use it. */
  readonly before: readonly StepId[];
  /** What to do then, told after how long, in words. */
  readonly lapsed: (after: string) => string;
}

const within = (value: number, note: string): Quantity => ({ value, unit: 's', ...practice, note });

const TO_CEMENT = ['mix', 'load'] as const satisfies readonly StepId[];
const PRIMERS = ['silane', 'zirconia-primer', 'metal-primer'] as const satisfies readonly StepId[];

/** Staleness by the step that makes the surface. */
export const FRESHNESS = {
  abrade: {
    within: within(600, 'abrasion to primer, no touch'),
    before: PRIMERS,
    lapsed: (after: string) =>
      `More than ${after} since it was abraded: abrade it again, then prime.`,
  },
  'intaglio-dry': {
    within: within(1800, 'after hydrofluoric acid: dry to silane'),
    before: ['silane'],
    lapsed: (after: string) => `More than ${after} since it was dried: etch it again, then silane.`,
  },
  'primer-dry': {
    within: within(3600, 'silane or primer to cement, covered'),
    before: TO_CEMENT,
    lapsed: (after: string) =>
      `More than ${after} since it was primed: clean it and prime it again.`,
  },
  'base-abrade': {
    within: within(600, 'abrasion to primer, no touch'),
    before: ['abutment-primer'],
    lapsed: (after: string) =>
      `More than ${after} since the base was abraded: abrade it again, then prime.`,
  },
  'tooth-etch-rinse': {
    within: within(60, 'tooth etch to adhesive: at once; above 60 s or wetted, etch again 10 s'),
    before: ['core-primer', 'abutment-primer', 'bond'],
    lapsed: (after: string) => `More than ${after} since the tooth was etched: etch it again.`,
  },
  'bond-thin': {
    within: within(180, 'adhesive to seating'),
    before: ['seat'],
    lapsed: (after: string) =>
      `More than ${after} since the adhesive was thinned: adhesive again before seating.`,
  },
} as const satisfies Partial<Readonly<Record<StepId, Freshness>>>;
