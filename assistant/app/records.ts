/** The record page: a case's entries in plain words, and whether anybody touched them. */
import { type Verdict, verify } from '../../machines/record/index.ts';
import type { Header } from '../../machines/contract/index.ts';
import type { ChainView, RecordState } from '../screens/model.ts';
import type { Store } from '../store/index.ts';
import { checkSignature } from '../store/signing.ts';

/** A record fit to be gone on with. @throws Error naming the entry when it was changed. */
export async function readRecord(
  store: Store,
  caseId: string,
): Promise<Extract<Verdict, { ok: true }>> {
  const verdict = verify(await store.lines(caseId));
  if (!verdict.ok) throw new Error(verdict.message);
  return verdict;
}

async function chainOf(verdict: Extract<Verdict, { ok: true }>): Promise<ChainView> {
  const { closing } = verdict;
  if (closing === null) return { kind: 'whole', signed: false };
  if (await checkSignature(closing)) return { kind: 'whole', signed: true };
  return {
    kind: 'broken',
    entry: closing.n,
    reason: 'The closing was not signed by the key it names.',
  };
}

/** What the record page shows of a case that verifies. */
export async function recordOf(store: Store, id: string): Promise<RecordState> {
  const verdict = await readRecord(store, id);
  const header: Header = verdict.header;
  const { entries, closing } = verdict;
  return { id, header, entries, closing, chain: await chainOf(verdict) };
}
