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
  'peroxide-on-tooth',
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

/**
 * What stands behind a refusal where its id alone does not tell it: the chemistry of this agent on this
 * material, or which of several conditions is not met. Each has words in `prompts`.
 */
export const CAUSES = [
  // in the mouth
  'dust-in-mouth',
  'inside-outside-only',
  'still-in-mouth',
  // hydrofluoric acid
  'etch-finds-no-glass',
  'etch-dissolves-infiltrate',
  'etch-corrodes-metal',
  'etch-eats-filler',
  // phosphoric acid
  'phosphate-takes-sites',
  'phosphate-on-metal',
  'phosphate-on-filler',
  'phosphate-on-network',
  'self-etch',
  'etch-for-nothing',
  // abrasion, cleaner, primers
  'abrasion-chips-glass',
  'cleaner-not-shown',
  'silane-finds-no-silica',
  'phosphate-primer-on-glass',
  'phosphate-primer-on-filler',
  'phosphate-primer-on-noble',
  'phosphate-primer-is-metal-primer',
  'metal-primer-on-oxide',
  'metal-primer-on-glass',
  'metal-primer-on-filler',
  // what comes first
  'leaves-some-on',
  'nothing-to-rinse',
  'no-primer-on',
  'tooth-acid-on',
  'tooth-not-etched',
  'not-roughened',
  'own-primer-missing',
  'joint-rough',
  'not-screwed-in',
  'not-torqued',
  'no-bond-on',
  'not-held',
  'cement-soft',
  'flash-on',
  'cement-not-set',
  // why it is not in the plan
  'cement-takes-no-primer',
  'cement-primes',
  'no-bond-under-cement',
  'no-bond-on-abutment',
  'nothing-to-etch',
  'no-light',
  'not-lit',
  'light-blocked',
  'no-screw',
  'no-base',
  // why it is not overridden
  'harms',
  'only-short',
  'cannot-be-done',
] as const;
export type CauseId = (typeof CAUSES)[number];

/** Refusals of laws 2 and 3: a clinician cannot override them. */
export const NEVER_OVERRIDDEN = [
  'in-mouth',
  'agent-still-on',
  'etch-not-etchable',
  'acid-before-primer',
  'silane-on-zirconia',
  'abrade-glass',
] as const satisfies readonly RefusalId[];

/** Refusals of an agent that does not suit this material: its table says why. */
export const UNSUITED = [
  'etch-not-etchable',
  'silane-on-zirconia',
  'abrade-glass',
  'primer-on-glass',
  'wrong-primer',
  'cleaner-on-glass',
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
  /** What stands behind it; left out where the id says all, and in records from before there was one. */
  because: z.enum(CAUSES).optional(),
});
export type Refusal = z.infer<typeof Refusal>;
