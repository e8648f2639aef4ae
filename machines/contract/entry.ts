import { z } from 'zod';
import { CaseFile } from './case.ts';
import { Command, Stamp } from './command.ts';
import { Plan } from './plan.ts';
import { Refusal } from './refusal.ts';
import { REASONS, STEPS, TEETH } from './terms.ts';

/** A departure from the plan that was carried out; what an audit reads first. */
export const Deviation = z.strictObject({
  kind: z.enum([
    'skipped',
    'short',
    'long',
    'overridden',
    'withdrawn',
    'counted-clean',
    'started-over',
  ]),
  step: z.enum(STEPS).nullable(),
  reason: z.enum(REASONS).nullable(),
  /** What had been refused, for an override. */
  refusal: Refusal.nullable(),
  /** What had been refused and overridden before it, for the same command, one after the other. */
  also: z.array(Refusal.shape.id).optional(),
  /** Seconds served against the window, for a dwell. */
  servedS: z.number().nullable(),
});
export type Deviation = z.infer<typeof Deviation>;

/** What came of a command. */
export const Outcome = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('accepted'), deviation: Deviation.nullable() }),
  /** Read back, or a reason asked for; nothing has changed yet. */
  z.strictObject({ kind: z.literal('asked') }),
  z.strictObject({ kind: z.literal('refused'), refusal: Refusal }),
]);
export type Outcome = z.infer<typeof Outcome>;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** First line of a record. */
export const Header = z.strictObject({
  kind: z.literal('header'),
  format: z.literal('seatcall-record/1'),
  invented: z.boolean(),
  software: z.string(),
  opened: z.iso.datetime(),
  case: CaseFile,
  plan: Plan,
  /** SHA-256 of the plan's RFC 8785 form. */
  planDigest: sha256,
});
export type Header = z.infer<typeof Header>;
/** A header as it was written: what has become a member since, and has a default, may not be there. */
export type HeaderLine = z.input<typeof Header>;

/** One command and what came of it. `prev` is the SHA-256 of the line before in its RFC 8785 form. */
export const Entry = z.strictObject({
  kind: z.literal('entry'),
  n: z.int().min(1),
  prev: sha256,
  stamp: Stamp,
  /** The unit it was for; null for a command to the case. */
  tooth: z.enum(TEETH).nullable(),
  /**
   * The step the command was taken to mean, also for a bare "done" and for the yes to a question;
   * null where it was about none. Entries of version 0.1.0 have no such member.
   */
  step: z.enum(STEPS).nullable().default(null),
  command: Command,
  outcome: Outcome,
});
export type Entry = z.infer<typeof Entry>;
/** An entry as it was written; see {@link HeaderLine}. */
export type EntryLine = z.input<typeof Entry>;

/** SubjectPublicKeyInfo of a point on P-256: 26 bytes that never differ, then 65 of the point. */
const publicKey = z
  .string()
  .regex(/^MFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAE[A-Za-z0-9+/]{85}[AQgw]==$/)
  .describe('SubjectPublicKeyInfo, base64');

const seal = {
  /** Place in the record: the last entry's number and one. */
  n: z.int().min(1),
  prev: sha256,
  wall: z.iso.datetime(),
  publicKey,
  signature: z
    .string()
    .regex(/^[A-Za-z0-9+/]{85}[AQgw]==$/)
    .describe(
      "ECDSA P-256 with SHA-256, IEEE P1363 form, the lower of the two s, base64; over this line's RFC 8785 form without `signature`",
    ),
};

/** Last line of a closed record: the head, signed with the browser's own key. */
export const Closing = z.strictObject({ kind: z.literal('closing'), ...seal });
export type Closing = z.infer<typeof Closing>;

/** Last line of the file of a case that is still open: the head so far, signed as in {@link Closing}. */
export const Checkpoint = z.strictObject({ kind: z.literal('checkpoint'), ...seal });
export type Checkpoint = z.infer<typeof Checkpoint>;

export const Line = z.discriminatedUnion('kind', [Header, Entry, Closing, Checkpoint]);
export type Line = z.infer<typeof Line>;
/** A line as it was written; see {@link HeaderLine}. */
export type WrittenLine = z.input<typeof Line>;
