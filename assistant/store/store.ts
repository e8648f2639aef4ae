import type { CaseFile, Closing, EntryLine, HeaderLine } from '../../machines/contract/index.ts';
import { caseIdOf, digest, follows, Tombstone } from '../../machines/record/index.ts';
import type { ReadSettings, Settings } from './settings.ts';
import { StoreTrouble } from './trouble.ts';

/** What goes after a header. */
export type Kept = EntryLine | Closing;

/** A case as a list shows it. */
export interface CaseSummary {
  /** SHA-256 of the header. */
  readonly caseId: string;
  readonly reference: string;
  readonly invented: boolean;
  /** ISO 8601 in UTC. */
  readonly opened: string;
  readonly teeth: readonly string[];
  readonly entries: number;
  readonly closed: boolean;
  /** Wall time of the last line, ISO 8601 in UTC. */
  readonly lastWall: string;
  /** It came from a file that was cut off after this entry, and nothing has come since; absent for a whole one. */
  readonly cutAfter?: number;
}

/** The one that may write to a case; there is never a second, in any tab. */
export interface CaseWriter {
  readonly caseId: string;
  /** Where lines go now. */
  readonly keeping: 'disk' | 'memory';
  /**
   * Keeps a line after the last one. Acknowledged only when it is written for good, so await it
   * before acting on the entry.
   * @throws StoreTrouble 'full', 'unavailable' or 'broken': it was not kept; 'out-of-order': it does
   * not follow what is kept; 'closed': nothing follows a closing.
   */
  append(line: Kept): Promise<void>;
  /** Lets others write to the case. */
  release(): void;
}

/**
 * Where records are kept. Append-only: no call changes a line, and a record goes only as a whole,
 * with a tombstone in its place. Every call may reject with a StoreTrouble whose message is a
 * sentence for people.
 */
export interface Store {
  readonly keeping: 'disk' | 'memory';
  /** Starts a record. @throws StoreTrouble 'exists' when there is a case with this very header. */
  openCase(header: HeaderLine): Promise<CaseWriter>;
  /** Takes up a record again. @throws StoreTrouble 'missing', or 'elsewhere' when another tab writes to it. */
  resumeCase(caseId: string): Promise<CaseWriter>;
  /** Keeps a whole record, or what a cut file has left of one, all or nothing. @throws StoreTrouble 'exists', or 'deleted' when it was deleted here. */
  putRecord(header: HeaderLine, lines: readonly Kept[], cutAfter?: number): Promise<void>;
  /** Marks a record as one whose file was cut off after an entry. @throws StoreTrouble 'missing'. */
  markCut(caseId: string, cutAfter: number): Promise<void>;
  /**
   * Deletes a whole record and keeps its tombstone in the ledger, both or neither.
   * @throws StoreTrouble 'missing'; 'elsewhere' when it is being written; 'out-of-order' when the
   * tombstone does not follow the ledger's last or is not of the record as it stands.
   */
  deleteCase(tombstone: Tombstone): Promise<void>;
  /** The ledger of deletions, first to last, not verified: see `verifyLedger`. */
  tombstones(): Promise<unknown[]>;
  /** The record, header first, not verified: `verify` it. @throws StoreTrouble 'missing'. */
  lines(caseId: string): Promise<unknown[]>;
  /** All cases, the last opened first. */
  listCases(): Promise<CaseSummary[]>;
  /** Those that can be gone on with, the last opened first: what to offer after a crash. */
  unfinished(): Promise<CaseSummary[]>;
  settings(): Promise<ReadSettings>;
  putSettings(settings: Settings): Promise<void>;
  /** Case facts written down before the appointment, by reference. */
  preparedCases(): Promise<CaseFile[]>;
  /** Keeps case facts for later, in place of those with the same reference. */
  prepareCase(facts: CaseFile): Promise<void>;
  dropPrepared(reference: string): Promise<void>;
  /** This browser's signing keys, made on first use. */
  signingKeys(): Promise<CryptoKeyPair>;
  /** Gives back what the store holds; no call may follow. */
  close(): void;
}

/** Wall time of a line. */
function wallOf(line: Kept): string {
  return line.kind === 'entry' ? line.stamp.wall : line.wall;
}

/** The summary of a case by its header and last line, null when there is none but the header. */
export function summarise(header: HeaderLine, last: Kept | null, cutAfter?: number): CaseSummary {
  const closed = last?.kind === 'closing';
  // What was missing has come since.
  const mended = cutAfter === undefined || closed || (last?.n ?? 0) > cutAfter;
  return {
    caseId: caseIdOf(header),
    reference: header.case.reference,
    invented: header.invented,
    opened: header.opened,
    teeth: header.case.units.map(({ tooth }) => tooth),
    entries: (last?.n ?? 0) - (closed ? 1 : 0),
    closed,
    lastWall: last === null ? header.opened : wallOf(last),
    ...(mended ? {} : { cutAfter }),
  };
}

/** Whether a case can be gone on with: what was cut off goes on elsewhere, or nowhere. */
export const isUnfinished = ({ closed, cutAfter }: CaseSummary): boolean =>
  !closed && cutAfter === undefined;

/** The order of {@link Store.listCases}. */
export function lastOpenedFirst(a: CaseSummary, b: CaseSummary): number {
  return b.opened.localeCompare(a.opened) || a.caseId.localeCompare(b.caseId);
}

/**
 * Holds a line to its place after `last` (null: after the header).
 * @throws StoreTrouble 'closed' or 'out-of-order'.
 */
export function mustFollow(caseId: string, last: Kept | null, line: Kept): void {
  if (last?.kind === 'closing')
    throw new StoreTrouble('closed', 'This record is closed: nothing can be added to it.');
  const n = (last?.n ?? 0) + 1;
  const prev = last === null ? caseId : digest(last);
  if (line.n !== n || line.prev !== prev) {
    const message = `Entry ${line.n} does not follow entry ${n - 1}, the last that is kept: the case was written elsewhere, or an entry was lost. Load the page again.`;
    throw new StoreTrouble('out-of-order', message);
  }
}

/**
 * Holds a tombstone to its place after the ledger's last and to the record as it stands.
 * @throws StoreTrouble 'out-of-order'.
 */
export function mustBury(
  tombstone: Tombstone,
  ledger: readonly unknown[],
  last: Kept | null,
): void {
  const before = Tombstone.safeParse(ledger.at(-1)).data ?? null;
  const closed = last?.kind === 'closing';
  const head = last === null ? tombstone.caseId : digest(last);
  const entries = (last?.n ?? 0) - (closed ? 1 : 0);
  const fits =
    tombstone.head === head && tombstone.entries === entries && tombstone.closed === closed;
  const whole = ledger.length === 0 || before !== null;
  if (fits && whole && follows(before, tombstone)) return;
  const message = whole
    ? 'Nothing was deleted: the record or the list of deletions has changed since. Load the page again.'
    : 'Nothing was deleted: the list of deletions was changed, and no more can be added to it.';
  throw new StoreTrouble('out-of-order', message);
}

/**
 * Refuses a record whose tombstone stands.
 * @throws StoreTrouble 'deleted'.
 */
export function mustNotBeBuried(caseId: string, ledger: readonly unknown[]): void {
  for (const line of ledger) {
    const { data } = Tombstone.safeParse(line);
    if (data?.caseId === caseId)
      throw new StoreTrouble(
        'deleted',
        `This very record was deleted here on ${data.wall.slice(0, 10)} (deletion ${data.n}): it is not taken back in.`,
      );
  }
}

export const noSuchCase = (): StoreTrouble =>
  new StoreTrouble('missing', 'There is no such case on this machine.');
export const caseExists = (): StoreTrouble =>
  new StoreTrouble('exists', 'There is a record of this very case already.');
export const openElsewhere = (): StoreTrouble =>
  new StoreTrouble(
    'elsewhere',
    'This case is open in another tab or window. Close it there, or go on there.',
  );
export const released = (): StoreTrouble =>
  new StoreTrouble('elsewhere', 'This case was given up here: take it up again to write to it.');
