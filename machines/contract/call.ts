import { z } from 'zod';
import { Command } from './command.ts';
import { Refusal } from './refusal.ts';
import { CAUTIONS, CONTAMINANTS, FINDINGS, REASONS, STEPS, SURFACES, TEETH } from './terms.ts';

const step = z.enum(STEPS);
/** The unit it is about; left out when no other unit is open. */
const of = { tooth: z.enum(TEETH).optional() };
const seconds = z.int().min(0);
const reason = z.enum(REASONS);

/** What makes hearing worse without ending it. */
export const HEARD_BADLY = ['other device', 'faint', 'clipped'] as const;

/** What Seatcall says aloud. Words, priority and deadline are in the catalogue in `prompts`. */
export const Call = z.discriminatedUnion('id', [
  /** First call of a case: supports a licensed clinician, does not replace judgement or instructions for use. */
  z.strictObject({ id: z.literal('opening') }),
  z.strictObject({ id: z.literal('reopened') }),
  z.strictObject({ id: z.literal('caution'), caution: z.enum(CAUTIONS) }),
  /** The unit worked on from here. */
  z.strictObject({ id: z.literal('unit'), tooth: z.enum(TEETH) }),
  /** The one thing to do now. `seconds` is the dwell's target where there is one. */
  z.strictObject({ id: z.literal('step'), ...of, step, seconds: seconds.nullable() }),
  /** A dwell has started: name and target. */
  z.strictObject({ id: z.literal('begun'), ...of, step, seconds: seconds.nullable() }),
  z.strictObject({ id: z.literal('left'), ...of, step, seconds }),
  z.strictObject({ id: z.literal('time'), ...of, step }),
  /** The maximum has passed: an alarm. */
  z.strictObject({ id: z.literal('overdue'), ...of, step }),
  z.strictObject({ id: z.literal('seat-by'), ...of, seconds }),
  /**
   * Cement is being mixed for another unit, and this one is meant for the same mix: each has its own
   * word for it and its own clock. `ready`: both its surfaces are, so that it can share it.
   */
  z.strictObject({ id: z.literal('same-mix'), tooth: z.enum(TEETH), ready: z.boolean() }),
  z.strictObject({ id: z.literal('working-time-over'), ...of }),
  /** Seated: not to be moved until the cement has gelled or set. */
  z.strictObject({ id: z.literal('hold-until'), ...of, until: z.enum(['gel', 'set']), seconds }),
  z.strictObject({ id: z.literal('hold-over'), ...of, until: z.enum(['gel', 'set']) }),
  /** How long what this step left stays good. */
  z.strictObject({ id: z.literal('good-for'), ...of, step, seconds }),
  /** What this step left is past: it counts no more. */
  z.strictObject({ id: z.literal('lapsed'), ...of, step }),
  /** Read-backs: each waits for yes or no. */
  z.strictObject({ id: z.literal('ask-begin'), ...of, step }),
  z.strictObject({
    id: z.literal('ask-reason'),
    ...of,
    for: z.enum(['skip', 'short', 'override', 'counts-clean']),
  }),
  z.strictObject({ id: z.literal('ask-skip'), ...of, step, reason }),
  z.strictObject({ id: z.literal('ask-short'), ...of, step, reason }),
  z.strictObject({
    id: z.literal('ask-override'),
    ...of,
    refusal: Refusal.shape.id,
    step: step.nullable(),
    because: Refusal.shape.because,
    reason,
  }),
  z.strictObject({ id: z.literal('ask-counts-clean'), ...of, reason }),
  z.strictObject({ id: z.literal('ask-undo'), ...of, contamination: z.boolean() }),
  z.strictObject({ id: z.literal('ask-start-over'), ...of }),
  /** Heard with middling confidence: what was understood. `step`: what it was taken to mean. */
  z.strictObject({ id: z.literal('ask-heard'), ...of, command: Command, step: step.nullable() }),
  /** `named`: several dwells run, so that the step must be said too. */
  z.strictObject({
    id: z.literal('refusal'),
    ...of,
    named: z.literal(true).optional(),
    refusal: Refusal,
  }),
  z.strictObject({
    id: z.literal('soiled'),
    ...of,
    surface: z.enum(SURFACES),
    contaminant: z.enum(CONTAMINANTS),
  }),
  z.strictObject({ id: z.literal('found'), ...of, finding: z.enum(FINDINGS) }),
  z.strictObject({ id: z.literal('skipped'), ...of, step }),
  /** A bare "done" ended this one, of several that run. */
  z.strictObject({ id: z.literal('ended'), ...of, step }),
  z.strictObject({ id: z.literal('cancelled') }),
  /** `step`: what the undone command was about; null when it was about no step. */
  z.strictObject({ id: z.literal('undone'), ...of, step: step.nullable() }),
  z.strictObject({ id: z.literal('noted') }),
  z.strictObject({ id: z.literal('held'), ...of }),
  z.strictObject({ id: z.literal('released'), ...of, seconds }),
  z.strictObject({ id: z.literal('added'), ...of, seconds }),
  z.strictObject({ id: z.literal('paused') }),
  z.strictObject({ id: z.literal('resumed') }),
  z.strictObject({ id: z.literal('stopped') }),
  z.strictObject({ id: z.literal('why'), ...of, step }),
  /** The call sign was heard alone. */
  z.strictObject({ id: z.literal('listening') }),
  /** The microphone is in trouble; the screen says what to do. */
  z.strictObject({ id: z.literal('cannot-hear') }),
  /** It hears, but not as it should. */
  z.strictObject({ id: z.literal('hears-badly'), why: z.enum(HEARD_BADLY) }),
  z.strictObject({ id: z.literal('finished'), ...of }),
  z.strictObject({ id: z.literal('closed') }),
]);
export type Call = z.infer<typeof Call>;
export type CallId = Call['id'];
