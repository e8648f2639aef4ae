/** Records as the pages show them: whether anybody touched them, how long they are kept, what went. */
import { withMeantSteps } from '../../machines/conduct/index.ts';
import { type Verdict, verify, verifySealed } from '../../machines/record/index.ts';
import type { Closing } from '../../machines/contract/index.ts';
import type {
  ChainView,
  CheckedFile,
  DeletionRow,
  KeepingState,
  RecordState,
} from '../screens/model.ts';
import { cutOf, deletionsOf, readLedger, type Store } from '../store/index.ts';
import { checkSignature, fingerprint, fingerprintOf } from '../store/signing.ts';
import { keptUntil, pastKeeping } from './retention.ts';

type Good = Extract<Verdict, { ok: true }>;

/** A record fit to be gone on with. @throws Error naming the entry when it was changed. */
export async function readRecord(store: Store, caseId: string): Promise<Good> {
  const verdict = verify(await store.lines(caseId));
  if (!verdict.ok) throw new Error(verdict.message);
  return { ...verdict, entries: withMeantSteps(verdict) };
}

async function chainOf(closing: Closing | null): Promise<ChainView> {
  if (closing === null) return { kind: 'whole', signed: false };
  if (await checkSignature(closing)) return { kind: 'whole', signed: true };
  return {
    kind: 'broken',
    entry: closing.n,
    reason: 'The closing was not signed by the key it names.',
  };
}

/** What the record page shows of a case that verifies. */
export async function recordOf(
  store: Store,
  id: string,
  years: number | null,
): Promise<RecordState> {
  const { header, entries, closing, head } = await readRecord(store, id);
  const lastWall = closing?.wall ?? entries.at(-1)?.stamp.wall ?? header.opened;
  const ledger = await readLedger(store);
  return {
    id,
    header,
    entries,
    closing,
    chain: await chainOf(closing),
    cutAfter: await cutOf(store, id),
    head: head.digest,
    fingerprint: closing === null ? null : await fingerprint(closing),
    keptUntil: years === null ? null : keptUntil(lastWall, years),
    deletedBefore: deletionsOf(ledger, header.case.reference),
    asking: null,
    problem: null,
  };
}

/** How long records are kept, as things stand at `wall` (ISO 8601 in UTC). */
export async function keepingOf(
  store: Store,
  years: number | null,
  wall: string,
): Promise<KeepingState> {
  const [cases, { tombstones, fault }] = await Promise.all([store.listCases(), readLedger(store)]);
  const deletions: readonly DeletionRow[] = tombstones;
  return {
    years,
    past: pastKeeping(cases, years, wall),
    deletions,
    fault: fault?.message ?? null,
  };
}

/** What can be said of a file that somebody chose; nothing of it is kept. */
export async function checkBytes(
  store: Store,
  name: string,
  bytes: Uint8Array,
): Promise<CheckedFile> {
  const verdict = await verifySealed(bytes, checkSignature);
  if (!verdict.ok) {
    const { line, entry, message: reason, intact } = verdict;
    const { header, entries } = intact;
    const chain = { kind: 'broken', entry, reason } as const;
    return { name, header, entries, chain, line, seal: null, fingerprint: null, own: false };
  }
  const { header, closing, checkpoint } = verdict;
  const entries = withMeantSteps(verdict);
  const seal = closing ?? checkpoint;
  const key = seal === null ? null : await fingerprint(seal);
  return {
    name,
    header,
    entries,
    chain: { kind: 'whole', signed: seal !== null },
    line: null,
    seal: seal?.kind ?? null,
    fingerprint: key,
    own: key !== null && key === (await fingerprintOf(await store.signingKeys())),
  };
}
