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

/** One command and what came of it. `prev` is the SHA-256 of the line before in its RFC 8785 form. */
export const Entry = z.strictObject({
  kind: z.literal('entry'),
  n: z.int().min(1),
  prev: sha256,
  stamp: Stamp,
  /** The unit it was for; null for a command to the case. */
  tooth: z.enum(TEETH).nullable(),
  command: Command,
  outcome: Outcome,
});
export type Entry = z.infer<typeof Entry>;

/** Last line: the head, signed with the browser's own key (ECDSA P-256, SHA-256, IEEE P1363 form). */
export const Closing = z.strictObject({
  kind: z.literal('closing'),
  n: z.int().min(1),
  prev: sha256,
  wall: z.iso.datetime(),
  publicKey: z.string().describe('SubjectPublicKeyInfo, base64'),
  signature: z.string().describe('Over the bytes of `prev` as lower-case hex text, base64'),
});
export type Closing = z.infer<typeof Closing>;

export const Line = z.discriminatedUnion('kind', [Header, Entry, Closing]);
export type Line = z.infer<typeof Line>;
