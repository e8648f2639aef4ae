/** Records reviewed a batch at a time, in this process or, as a helper, in another. */
import type { Verdict } from '../../machines/record/index.ts';
import { counterfactual, NotASeating, Reviewer, TooHard } from '../../machines/review/index.ts';
import type { Counterfactual, ReadRecord, ReviewedRecord } from '../../machines/review/index.ts';
import { Locked, verifySealedFile } from './record-file.ts';

/** A record that was reviewed. */
export interface Reviewed {
  readonly ok: true;
  readonly record: ReviewedRecord;
  /** Whether a signature was there and holds; false for a record still open. */
  readonly sealed: boolean;
  /** What today's machine would have refused; null where nobody asked. */
  readonly guard: Counterfactual | null;
}

/** A file that was not. Lines and entries count from 1; null where none is at fault. */
export interface Failed {
  readonly ok: false;
  readonly record: string;
  readonly line: number | null;
  readonly entry: number | null;
  readonly message: string;
  /** Of a file that was cut off: what it still has, reviewed. It is not one of the reviewed records. */
  readonly leading?: Reviewed;
}

export interface Batch {
  readonly paths: readonly string[];
  /** Also replay through today's machine: a few milliseconds a record. */
  readonly guard: boolean;
  /** Opens files that are under one. */
  readonly passphrase: string | null;
}

/** Says that this file runs as a helper: it answers batches until nobody asks any more. */
export const HELPER = 'review-helper';

const FILE_TROUBLE: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file.',
  EISDIR: 'This is a folder.',
  EACCES: 'The file may not be read.',
};

function troubleOf(error: unknown): string | null {
  if (error instanceof NotASeating || error instanceof TooHard || error instanceof Locked)
    return error.message;
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string')
    return null;
  return FILE_TROUBLE[error.code] ?? error.message;
}

/** A file that was read and verified, or what kept it from that. */
type Read =
  | { readonly path: string; readonly verdict: Verdict }
  | { readonly path: string; readonly error: unknown };

async function readFile(path: string, passphrase: string | null): Promise<Read> {
  try {
    return { path, verdict: await verifySealedFile(path, passphrase) };
  } catch (error) {
    return { path, error };
  }
}

const reviewer = new Reviewer();

function reviewed({ path, verdict }: Extract<Read, { verdict: Verdict }>, guard: boolean) {
  const told = (read: ReadRecord, sealed: boolean): Reviewed => ({
    ok: true,
    record: reviewer.review(path, read),
    sealed,
    guard: guard ? counterfactual(read.header, read.entries) : null,
  });
  if (!verdict.ok) {
    const { line, entry, message, cut } = verdict;
    const failed: Failed = { ok: false, record: path, line, entry, message };
    if (cut === null || cut.entries.length === 0) return failed;
    try {
      return { ...failed, leading: told({ ...cut, cut: true }, false) };
    } catch (error) {
      // That it was cut off is what there is to tell of it.
      if (error instanceof NotASeating || error instanceof TooHard) return failed;
      throw error;
    }
  }
  const { closing, checkpoint } = verdict;
  return told(verdict, closing !== null || checkpoint !== null);
}

function outcomeOf(read: Read, guard: boolean): Reviewed | Failed {
  try {
    if ('error' in read) throw read.error;
    return reviewed(read, guard);
  } catch (error) {
    const message = troubleOf(error);
    if (message === null) throw error;
    return { ok: false, record: read.path, line: null, entry: null, message };
  }
}

/**
 * Reviews files one after another; what is wrong with one is no fault of the others. While one is
 * reviewed the signature of the next is checked; memory stays that of two records.
 */
export async function reviewBatch({
  paths,
  guard,
  passphrase,
}: Batch): Promise<readonly (Reviewed | Failed)[]> {
  const results: (Reviewed | Failed)[] = [];
  let before: Promise<Read> | null = null;
  for (const path of paths) {
    const next = readFile(path, passphrase);
    if (before !== null) results.push(outcomeOf(await before, guard));
    before = next;
  }
  if (before !== null) results.push(outcomeOf(await before, guard));
  return results;
}

if (process.argv[2] === HELPER) {
  process.on('message', (batch: Batch) => {
    void reviewBatch(batch).then((results) => process.send?.(results));
  });
}
