/** Deleting a record: the record goes, its tombstone stays. */
import { Header } from '../../machines/contract/index.ts';
import {
  digest,
  isOf,
  NO_TOMBSTONE,
  referenceDigest,
  toJsonLines,
  verifyLedger,
} from '../../machines/record/index.ts';
import type { DeletionReason, LedgerFault, Tombstone } from '../../machines/record/index.ts';
import { bury, checkTombstone } from './signing.ts';
import type { Store } from './store.ts';
import type { RecordFile } from './transfer.ts';
import { StoreTrouble } from './trouble.ts';

/** The ledger of deletions as it verifies: what is good of it, and the first fault. */
export interface Ledger {
  readonly tombstones: readonly Tombstone[];
  readonly fault: LedgerFault | null;
}

/** Reads and verifies this browser's ledger of deletions. */
export async function readLedger(store: Store): Promise<Ledger> {
  return verifyLedger(await store.tombstones(), checkTombstone);
}

/** The ledger as a file of JSON Lines, each in its canonical form, as it is kept; `wall`: now, ISO 8601. */
export async function exportLedger(store: Store, wall: string): Promise<RecordFile> {
  const name = `seatcall-deletions-${wall.slice(0, 10)}.jsonl`;
  return { name, text: toJsonLines(await store.tombstones()) };
}

/** Deletions of records with this case reference. */
export function deletionsOf({ tombstones }: Ledger, reference: string): readonly Tombstone[] {
  return tombstones.filter((tombstone) => isOf(tombstone, reference));
}

/**
 * Deletes a record, whether it verifies or not, and signs its tombstone with this browser's key.
 * There is no way back. `wall`: now, ISO 8601 in UTC.
 * @throws StoreTrouble 'missing', 'elsewhere', 'full', or 'broken' when the ledger does not verify: a
 * tombstone is not put on top of a fault.
 */
export async function deleteCase(
  store: Store,
  caseId: string,
  reason: DeletionReason,
  wall: string,
): Promise<Tombstone> {
  const { tombstones, fault } = await readLedger(store);
  if (fault !== null)
    throw new StoreTrouble(
      'broken',
      `Nothing was deleted: the list of deletions does not hold. ${fault.message}`,
    );
  const lines = await store.lines(caseId);
  const { case: facts } = Header.parse(lines[0]);
  const last = lines.at(-1);
  const closed =
    typeof last === 'object' && last !== null && 'kind' in last && last.kind === 'closing';
  const before = tombstones.at(-1);
  const tombstone = await bury(await store.signingKeys(), {
    n: tombstones.length + 1,
    prev: before === undefined ? NO_TOMBSTONE : digest(before),
    caseId,
    reference: referenceDigest(caseId, facts.reference),
    head: digest(last),
    entries: lines.length - (closed ? 2 : 1),
    closed,
    reason,
    wall,
  });
  try {
    await store.deleteCase(tombstone);
  } catch (error) {
    // A browser frees what was deleted only later, and takes not even a tombstone before.
    if (!(error instanceof StoreTrouble) || error.kind !== 'full') throw error;
    const message =
      'Nothing was deleted: the storage is full even for the note that stays of a deletion. Make room on this machine’s disk, then try again.';
    throw new StoreTrouble('full', message, error);
  }
  return tombstone;
}
