import { z } from 'zod';
import { Closing } from '../contract/index.ts';
import { canonical, digest, digestText } from './canonical.ts';

/** Why a practice deletes a record. */
export const DELETION_REASONS = ['retention-over', 'asked-for', 'made-in-error', 'demo'] as const;
export type DeletionReason = (typeof DELETION_REASONS)[number];

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** What stays of a deleted record: that it was there, how long it was, and by which digest it ended. */
export const Tombstone = z.strictObject({
  kind: z.literal('tombstone'),
  /** Counts from 1 in this browser. */
  n: z.int().min(1),
  /** SHA-256 of the tombstone before in its RFC 8785 form; of nothing, for the first. */
  prev: sha256,
  /** The record's name: SHA-256 of its header. */
  caseId: sha256,
  /**
   * SHA-256 of the record's name, a line end and the case reference: the practice can tell whether
   * a reference it knows is meant, and no list of sums of all references helps others.
   */
  reference: sha256,
  /** SHA-256 of the record's last line, its closing included. */
  head: sha256,
  /** Entries it had, the closing not counted. */
  entries: z.int().min(0),
  closed: z.boolean(),
  reason: z.enum(DELETION_REASONS),
  /** When it was deleted, ISO 8601 in UTC. */
  wall: z.iso.datetime(),
  publicKey: Closing.shape.publicKey,
  /** As a closing's, over this line's RFC 8785 form without `signature`. */
  signature: Closing.shape.signature,
});
export type Tombstone = z.infer<typeof Tombstone>;

/** What a tombstone says, before it is signed. */
export type Epitaph = Omit<Tombstone, 'signature'>;

/** The digest that the first tombstone follows: SHA-256 of nothing. */
export const NO_TOMBSTONE = digestText('');

/** How a tombstone names a case reference. */
export function referenceDigest(caseId: string, reference: string): string {
  return digestText(`${caseId}\n${reference}`);
}

/** What a tombstone's signature is over. */
export function epitaphText(epitaph: Epitaph): string {
  return canonical(epitaph);
}

/** Whether the tombstone is of a record with this case reference. */
export function isOf(tombstone: Tombstone, reference: string): boolean {
  return tombstone.reference === referenceDigest(tombstone.caseId, reference);
}

/** Whether a tombstone may go after `last`: its number and digest follow. */
export function follows(last: Tombstone | null, next: Tombstone): boolean {
  return (
    next.n === (last?.n ?? 0) + 1 && next.prev === (last === null ? NO_TOMBSTONE : digest(last))
  );
}

/** What is wrong with a ledger of deletions; `n` counts from 1. */
export interface LedgerFault {
  readonly n: number;
  readonly message: string;
}

/**
 * Checks a ledger of deletions: form, numbering, chain and signatures (`check`, as signatures are
 * made outside `machines`). The good tombstones before the first fault, and the fault, or null.
 * That its end was cut off can't show from the ledger alone: compare it with a copy.
 */
export async function verifyLedger(
  lines: readonly unknown[],
  check: (tombstone: Tombstone) => Promise<boolean>,
): Promise<{ readonly tombstones: readonly Tombstone[]; readonly fault: LedgerFault | null }> {
  const tombstones: Tombstone[] = [];
  for (const line of lines) {
    const n = tombstones.length + 1;
    const fault = (message: string) => ({ tombstones, fault: { n, message } });
    const parsed = Tombstone.safeParse(line);
    if (!parsed.success) return fault(`Deletion ${n} is not a line of a ledger.`);
    if (!follows(tombstones.at(-1) ?? null, parsed.data))
      return fault(`Deletion ${n} does not follow the one before: one was changed or left out.`);
    if (!(await check(parsed.data)))
      return fault(`Deletion ${n} was changed: its signature does not fit.`);
    tombstones.push(parsed.data);
  }
  return { tombstones, fault: null };
}
