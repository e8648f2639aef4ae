import { z } from 'zod';
import { STEPS } from './terms.ts';

/** Why a command was not carried out. Each has words in `prompts`, with what would make it acceptable. */
export const REFUSALS = [
  // law 2: no override
  'in-mouth',
  'agent-still-on',
  // law 3: no override
  'etch-not-etchable',
  'acid-before-primer',
  'silane-on-zirconia',
  'abrade-glass',
  // chemistry that does not count (overridable only as a deviation)
  'primer-on-glass',
  'wrong-primer',
  'cleaner-on-glass',
  'acid-on-dentin',
  // laws 1, 4, 5
  'intaglio-soiled',
  'silicone-needs-etch',
  'silicone-needs-abrasion',
  'intaglio-not-conditioned',
  'intaglio-not-primed',
  'intaglio-wet',
  'intaglio-busy',
  'not-rinsed',
  'surface-stale',
  // law 6
  'prep-not-ready',
  'prep-not-clean',
  'field-open',
  'field-wet',
  'not-mixed',
  'not-loaded',
  'mixed-already',
  'working-time-over',
  // law 7
  'dwell-too-short',
  'dwell-running',
  'no-dwell',
  'cannot-hold',
  // order and place
  'provisional-on',
  'not-in-mouth',
  'already-in-mouth',
  'not-seated',
  'seated-already',
  'first',
  'not-planned',
  'not-on-shelf',
  // questions and control
  'reason-needed',
  'nothing-asked',
  'nothing-to-undo',
  'cannot-undo',
  'nothing-to-override',
  'no-override',
  'nothing-before',
  'paused',
  'stopped',
  'closed',
  'steps-open',
  'no-such-unit',
  'nothing-to-say',
] as const;
export type RefusalId = (typeof REFUSALS)[number];

/** Refusals of laws 2 and 3: a clinician cannot override them. */
export const NEVER_OVERRIDDEN = [
  'in-mouth',
  'agent-still-on',
  'etch-not-etchable',
  'acid-before-primer',
  'silane-on-zirconia',
  'abrade-glass',
] as const satisfies readonly RefusalId[];

export const Refusal = z.strictObject({
  id: z.enum(REFUSALS),
  /** The step that was asked for, if one was. */
  step: z.enum(STEPS).nullable(),
  /** What would make it acceptable: the step to do first. */
  wayOn: z.enum(STEPS).nullable(),
  /** Seconds still to serve, for `dwell-too-short`. */
  seconds: z.int().min(0).nullable(),
  overridable: z.boolean(),
});
export type Refusal = z.infer<typeof Refusal>;
