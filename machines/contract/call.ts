import { z } from 'zod';
import { Refusal } from './refusal.ts';
import { CAUTIONS, CONTAMINANTS, FINDINGS, REASONS, STEPS, SURFACES, TEETH } from './terms.ts';

const step = z.enum(STEPS);
const seconds = z.int().min(0);
const reason = z.enum(REASONS);

/** What Seatcall says aloud. Words, priority and deadline are in the catalogue in `prompts`. */
export const Call = z.discriminatedUnion('id', [
  /** First call of a case: supports a licensed clinician, does not replace judgement or instructions for use. */
  z.strictObject({ id: z.literal('opening') }),
  z.strictObject({ id: z.literal('reopened') }),
  z.strictObject({ id: z.literal('caution'), caution: z.enum(CAUTIONS) }),
  /** The unit worked on from here. */
  z.strictObject({ id: z.literal('unit'), tooth: z.enum(TEETH) }),
  /** The one thing to do now. `seconds` is the dwell's target where there is one. */
  z.strictObject({ id: z.literal('step'), step, seconds: seconds.nullable() }),
  /** A dwell has started: name and target. */
  z.strictObject({ id: z.literal('begun'), step, seconds: seconds.nullable() }),
  z.strictObject({ id: z.literal('left'), step, seconds }),
  z.strictObject({ id: z.literal('time'), step }),
  /** The maximum has passed: an alarm. */
  z.strictObject({ id: z.literal('overdue'), step }),
  z.strictObject({ id: z.literal('seat-by'), seconds }),
  z.strictObject({ id: z.literal('working-time-over') }),
  /** Read-backs: each waits for yes or no. */
  z.strictObject({ id: z.literal('ask-begin'), step }),
  z.strictObject({
    id: z.literal('ask-reason'),
    for: z.enum(['skip', 'short', 'override', 'counts-clean']),
  }),
  z.strictObject({ id: z.literal('ask-skip'), step, reason }),
  z.strictObject({ id: z.literal('ask-short'), step, reason }),
  z.strictObject({
    id: z.literal('ask-override'),
    refusal: Refusal.shape.id,
    step: step.nullable(),
    reason,
  }),
  z.strictObject({ id: z.literal('ask-counts-clean'), reason }),
  z.strictObject({ id: z.literal('ask-undo'), contamination: z.boolean() }),
  z.strictObject({ id: z.literal('ask-start-over') }),
  z.strictObject({ id: z.literal('refusal'), refusal: Refusal }),
  z.strictObject({
    id: z.literal('soiled'),
    surface: z.enum(SURFACES),
    contaminant: z.enum(CONTAMINANTS),
  }),
  z.strictObject({ id: z.literal('found'), finding: z.enum(FINDINGS) }),
  z.strictObject({ id: z.literal('skipped'), step }),
  z.strictObject({ id: z.literal('cancelled') }),
  z.strictObject({ id: z.literal('undone') }),
  z.strictObject({ id: z.literal('noted') }),
  z.strictObject({ id: z.literal('held') }),
  z.strictObject({ id: z.literal('released'), seconds }),
  z.strictObject({ id: z.literal('added'), seconds }),
  z.strictObject({ id: z.literal('paused') }),
  z.strictObject({ id: z.literal('resumed') }),
  z.strictObject({ id: z.literal('stopped') }),
  z.strictObject({ id: z.literal('why'), step }),
  /** The call sign was heard alone. */
  z.strictObject({ id: z.literal('listening') }),
  /** The microphone is in trouble; the screen says what to do. */
  z.strictObject({ id: z.literal('cannot-hear') }),
  z.strictObject({ id: z.literal('finished') }),
  z.strictObject({ id: z.literal('closed') }),
]);
export type Call = z.infer<typeof Call>;
export type CallId = Call['id'];
