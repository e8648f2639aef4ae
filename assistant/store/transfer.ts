import { MAX_FILE_BYTES, toJsonLines, verify, verifySealed } from '../../machines/record/index.ts';
import type { Written } from '../../machines/record/index.ts';
import { decryptBytes, encryptText, isEncrypted } from './passphrase.ts';
import { checkSignature, checkpoint } from './signing.ts';
import type { Store } from './store.ts';
import { StoreTrouble } from './trouble.ts';

/** A record as a file. */
export interface RecordFile {
  /** Ends in `.jsonl`, or in `.jsonl.jwe` under a passphrase; safe in any file system. */
  readonly name: string;
  /** JSON Lines, each in its canonical form; under a passphrase, one JWE in its compact form. */
  readonly text: string;
}

/**
 * A case as a file. A closed one ends in its closing; one that goes on gets a checkpoint, so that
 * a change to its last entry shows too. What is left of a cut file goes out as it came, without a
 * seal of ours: nobody here can say that its last entry is as it was. `wall`: now, ISO 8601 in UTC.
 * @throws StoreTrouble 'missing'; 'broken' when what is kept does not verify.
 */
export async function exportCase(store: Store, caseId: string, wall: string): Promise<RecordFile> {
  const lines = await store.lines(caseId);
  const verdict = verify(lines);
  if (!verdict.ok)
    throw new StoreTrouble('broken', `The record on this machine was changed. ${verdict.message}`);
  const cutAfter = await cutOf(store, caseId);
  const seal =
    verdict.closing === null && cutAfter === null
      ? [await checkpoint(await store.signingKeys(), verdict.head, wall)]
      : [];
  const { reference } = verdict.header.case;
  const plain = reference.replaceAll(/[^A-Za-z0-9-]+/g, '-').replaceAll(/^-+|-+$/g, '');
  const day = verdict.header.opened.slice(0, 10);
  const mark = cutAfter === null ? '' : `-cut-after-${cutAfter}`;
  const name = `seatcall-${day}-${plain || 'case'}-${caseId.slice(0, 8)}${mark}.jsonl`;
  return { name, text: toJsonLines([...lines, ...seal]) };
}

/** After which entry the file of a kept record was cut off; null for a whole one. */
export async function cutOf(store: Store, caseId: string): Promise<number | null> {
  const found = (await store.listCases()).find((one) => one.caseId === caseId);
  return found?.cutAfter ?? null;
}

/** The file under a passphrase. @throws RangeError for a passphrase that is too short. */
export async function sealFile(file: RecordFile, passphrase: string): Promise<RecordFile> {
  return { name: `${file.name}.jwe`, text: await encryptText(file.text, passphrase) };
}

/** Hands a file to the person at the browser, as a download. */
export function download({ name, text }: RecordFile): void {
  const type = name.endsWith('.jwe') ? 'application/jose' : 'application/jsonl';
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // A browser may begin to read the blob only after the click.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** What came of an import. */
export type Imported =
  | {
      /** new: kept now; same: it was here already; older: more of it is here already; newer: its further entries were added. */
      readonly kind: 'new' | 'same' | 'older' | 'newer';
      readonly caseId: string;
      /** False: the file has no seal, so that a cut at its end, or a change to its last entry, cannot show. */
      readonly sealed: boolean;
    }
  /** It is under a passphrase: `message` is null when none was given, or says why it did not open. */
  | { readonly kind: 'encrypted'; readonly message: string | null }
  /** It was cut off in `line`: its entries up to `after` are whole, and nothing is kept unless that is asked for. */
  | {
      readonly kind: 'cut';
      readonly line: number;
      readonly after: number;
      readonly message: string;
    }
  | {
      readonly kind: 'refused';
      /** Line of the file, from 1; null when it is the file as a whole. */
      readonly line: number | null;
      /** The entry at fault, if it is one. */
      readonly entry: number | null;
      readonly message: string;
    };

/**
 * A file's bytes: opened, where it is under a passphrase, or what keeps it from being read.
 * The file is not changed.
 */
export async function openFile(
  file: Blob | Uint8Array,
  passphrase: string | null,
): Promise<Uint8Array | Extract<Imported, { kind: 'encrypted' | 'refused' }>> {
  const size = file instanceof Blob ? file.size : file.length;
  if (size > MAX_FILE_BYTES) {
    const message = `The file is larger than ${MAX_FILE_BYTES / 1024 / 1024} MB: it is no record.`;
    return { kind: 'refused', line: null, entry: null, message };
  }
  const bytes = file instanceof Blob ? new Uint8Array(await file.arrayBuffer()) : file;
  if (!isEncrypted(bytes)) return bytes;
  if (passphrase === null) return { kind: 'encrypted', message: null };
  const opened = await decryptBytes(bytes, passphrase);
  if (opened.ok) return opened.bytes;
  const { message } = opened;
  if (opened.fault === 'passphrase') return { kind: 'encrypted', message };
  return { kind: 'refused', line: null, entry: null, message };
}

/**
 * Takes a record file in. It is opened, if it is under a passphrase, and verified first (form,
 * chain, plan digest, signature); a file with a fault is refused, and nothing of it is kept. Of one
 * that was cut off the whole entries can be kept by `keepCut`, marked as what they are.
 * @throws StoreTrouble when the store fails, or the case is open in another tab and the file has more of it.
 */
export async function importCase(
  store: Store,
  file: Blob | Uint8Array,
  passphrase: string | null = null,
  keepCut = false,
): Promise<Imported> {
  const bytes = await openFile(file, passphrase);
  if ('kind' in bytes) return bytes;
  const verdict = await verifySealed(bytes, checkSignature);
  if (!verdict.ok) {
    const { line, entry, message, cut } = verdict;
    const after = cut?.entries.length ?? 0;
    if (cut === null || after === 0) return { kind: 'refused', line, entry, message };
    if (!keepCut) return { kind: 'cut', line, after, message };
    return keep(store, { ...cut, sealed: false, cutAfter: after });
  }
  const sealed = verdict.closing !== null || verdict.checkpoint !== null;
  return keep(store, { ...verdict, sealed });
}

/** What a file brought. */
interface Brought {
  readonly caseId: string;
  readonly written: Written;
  readonly sealed: boolean;
  readonly cutAfter?: number;
}

async function keep(store: Store, brought: Brought): Promise<Imported> {
  const { caseId, written, sealed, cutAfter } = brought;
  try {
    await store.putRecord(written.header, written.lines, cutAfter);
    return { kind: 'new', caseId, sealed };
  } catch (error) {
    if (!(error instanceof StoreTrouble)) throw error;
    const { kind, message } = error;
    if (kind === 'deleted') return { kind: 'refused', line: null, entry: null, message };
    if (kind !== 'exists') throw error;
  }
  return reconcile(store, brought);
}

/** What to do with lines of a case that is here already: both copies must tell the same story. */
async function reconcile(
  store: Store,
  { caseId, written: { lines }, sealed, cutAfter }: Brought,
): Promise<Imported> {
  const here = verify(await store.lines(caseId));
  if (!here.ok)
    throw new StoreTrouble('broken', `The record on this machine was changed. ${here.message}`);
  const kept = here.written.lines;
  const shared = Math.min(kept.length, lines.length);
  const at = kept.findIndex(
    (line, i) => i < shared && toJsonLines([line]) !== toJsonLines([lines[i]]),
  );
  if (at >= 0) {
    const entry = kept[at]?.kind === 'entry' && lines[at]?.kind === 'entry' ? at + 1 : null;
    const name = entry === null ? 'The closing' : `Entry ${entry}`;
    const message = `${name} is not the one this machine has for the same case: one of the two was made elsewhere.`;
    return { kind: 'refused', line: at + 2, entry, message };
  }
  if (lines.length === kept.length) return { kind: 'same', caseId, sealed };
  if (lines.length < kept.length) return { kind: 'older', caseId, sealed };
  const writer = await store.resumeCase(caseId);
  try {
    // First: were it stopped on the way, what is here would still be marked.
    if (cutAfter !== undefined) await store.markCut(caseId, cutAfter);
    for (const line of lines.slice(kept.length)) await writer.append(line);
    // Again: a full disk may have moved the case to memory.
    if (cutAfter !== undefined) await store.markCut(caseId, cutAfter);
  } finally {
    writer.release();
  }
  return { kind: 'newer', caseId, sealed };
}
