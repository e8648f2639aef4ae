import { Entry, Header } from '../contract/index.ts';
import type {
  Checkpoint,
  Closing,
  Command,
  EntryLine,
  HeaderLine,
  Outcome,
  Stamp,
  StepId,
} from '../contract/index.ts';
import { canonical, digest } from './canonical.ts';

/** Where a record ends: what the next entry must follow. */
export interface Head {
  /** Number of the last entry; 0 after the header. */
  readonly n: number;
  /** SHA-256 of the last line's canonical form. */
  readonly digest: string;
  /** Case time of the last entry, ms; 0 after the header. */
  readonly at: number;
}

/** What an entry says, before it has its place in the chain. */
export interface Happening {
  readonly stamp: Stamp;
  /** The unit it was for; null for a command to the case. */
  readonly tooth: string | null;
  /** The step the command was taken to mean; null where it was about none. */
  readonly step: StepId | null;
  readonly command: Command;
  readonly outcome: Outcome;
}

/** The header of a new record: the facts given, the format and the plan's digest. */
export function makeHeader(
  facts: Pick<Header, 'invented' | 'software' | 'opened' | 'case' | 'plan'>,
): Header {
  return Header.parse({
    kind: 'header',
    format: 'seatcall-record/1',
    planDigest: digest(facts.plan),
    ...facts,
  });
}

/**
 * The head a record's first entry follows.
 * @throws RangeError when the header's plan digest is not its plan's.
 */
export function openRecord(header: HeaderLine): Head {
  if (header.planDigest !== digest(header.plan)) {
    throw new RangeError("The header's plan digest is not its plan's.");
  }
  return { n: 0, digest: digest(header), at: 0 };
}

/**
 * The entry that goes after `head`. The record is not changed: keep the entry, then go on
 * from {@link headAfter}.
 * @throws RangeError when its case time is before the head's.
 * @throws ZodError when what happened is not fit for a record.
 */
export function append(head: Head, { stamp, tooth, step, command, outcome }: Happening): Entry {
  if (stamp.at < head.at) {
    throw new RangeError(
      `Case time would run backwards: ${stamp.at} ms after ${head.at} ms (entry ${head.n}).`,
    );
  }
  const n = head.n + 1;
  const place = { kind: 'entry', n, prev: head.digest };
  return Entry.parse({ ...place, stamp, tooth, step, command, outcome });
}

/** The head once `entry` is the last line. */
export function headAfter(entry: EntryLine): Head {
  return { n: entry.n, digest: digest(entry), at: entry.stamp.at };
}

/** A record's name: the SHA-256 of its header. The same case has the same id wherever it is kept. */
export function caseIdOf(header: HeaderLine): string {
  return digest(header);
}

/** What a seal's signature is over: the line's canonical form without the signature. */
export function sealedText(seal: Omit<Closing | Checkpoint, 'signature'>): string {
  const { kind, n, prev, wall, publicKey } = seal;
  return canonical({ kind, n, prev, wall, publicKey });
}
