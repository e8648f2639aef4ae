import { z } from 'zod';
import { CONTAMINANTS, FINDINGS, REASONS, ROLES, STEPS, SURFACES, TEETH, WAYS } from './terms.ts';

const tooth = z.enum(TEETH).optional();
const step = z.enum(STEPS);
const reason = z.enum(REASONS).optional();

/**
 * What a person tells Seatcall. Every way in makes one of these. `tooth` addresses a unit;
 * without it the command is for the unit being worked on.
 */
export const Command = z.discriminatedUnion('type', [
  /** The doing of a step starts: the agent is on, the light is on, the restoration goes in. */
  z.strictObject({ type: z.literal('begin'), step, tooth }),
  /** A step is done; without `step`, the one running or waiting now. */
  z.strictObject({ type: z.literal('finish'), step: step.optional(), tooth }),
  /** The running dwell ends before its minimum. */
  z.strictObject({ type: z.literal('short'), step: step.optional(), reason, tooth }),
  /** A step is left out. */
  z.strictObject({ type: z.literal('skip'), step: step.optional(), reason, tooth }),
  /** The last refusal is overridden by the clinician. */
  z.strictObject({ type: z.literal('override'), reason }),
  /** Answers a question for a reason. */
  z.strictObject({ type: z.literal('reason'), reason: z.enum(REASONS) }),
  z.strictObject({
    type: z.literal('soil'),
    surface: z.enum(SURFACES),
    contaminant: z.enum(CONTAMINANTS),
    tooth,
  }),
  /** The intaglio counts as clean after a try-in although nobody cleaned it. */
  z.strictObject({ type: z.literal('counts-clean'), reason, tooth }),
  z.strictObject({ type: z.literal('find'), finding: z.enum(FINDINGS), tooth }),
  /** Everything bonded so far on this unit is given up: wipe out, clean, begin again. */
  z.strictObject({ type: z.literal('start-over'), tooth }),
  z.strictObject({ type: z.literal('unit'), tooth: z.enum(TEETH) }),
  z.strictObject({ type: z.literal('next') }),
  z.strictObject({ type: z.literal('back') }),
  z.strictObject({ type: z.literal('undo') }),
  z.strictObject({ type: z.literal('confirm') }),
  z.strictObject({ type: z.literal('deny') }),
  z.strictObject({ type: z.literal('pause') }),
  z.strictObject({ type: z.literal('resume') }),
  z.strictObject({ type: z.literal('stop') }),
  z.strictObject({ type: z.literal('hold') }),
  z.strictObject({ type: z.literal('release') }),
  z.strictObject({ type: z.literal('add'), seconds: z.int().min(5).max(60) }),
  z.strictObject({
    type: z.literal('ask'),
    about: z.enum(['step', 'time', 'why', 'repeat']),
  }),
  z.strictObject({ type: z.literal('note'), text: z.string().trim().min(1).max(500) }),
  z.strictObject({
    type: z.literal('lot'),
    item: z.string().trim().min(1).max(60),
    lot: z.string().trim().min(1).max(20),
  }),
  z.strictObject({ type: z.literal('close') }),
]);
export type Command = z.infer<typeof Command>;
export type CommandType = Command['type'];

/** When, by whom and by which way a command came. */
export const Stamp = z.strictObject({
  /** Case time in milliseconds since the case was opened; never runs backwards. */
  at: z.number().min(0),
  /** Wall clock, ISO 8601 in UTC. */
  wall: z.iso.datetime(),
  /** Monotonic milliseconds of the browsing session. */
  mono: z.number().min(0),
  who: z.enum(ROLES),
  via: z.enum(WAYS),
  heard: z
    .strictObject({
      phrase: z.string(),
      score: z.number().min(0).max(1),
      /** Heard with middling confidence: what it would change is asked back first. */
      unsure: z.literal(true).optional(),
    })
    .nullable(),
});
export type Stamp = z.infer<typeof Stamp>;
