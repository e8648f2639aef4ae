/** Records of whole appointments, said through without sound; invented. */
import type { CaseFile, Closing, Entry, Header } from '../machines/contract/index.ts';
import { makePlan } from '../machines/plan/index.ts';
import {
  append,
  type Head,
  headAfter,
  makeHeader,
  openRecord,
  toJsonLines,
} from '../machines/record/index.ts';
import { close, makeKey } from '../assistant/store/signing.ts';
import type { Operatory } from './chair/operatory.ts';
import { Talk } from './chair/talk.ts';

const OPENED = Date.UTC(2026, 1, 3, 9, 0, 0);
/** What saying a line and hearing the answer takes, ms. */
const LINE_MS = 2500;

/** Says a talk as fast as the machines let it. */
class QuietTalk extends Talk {
  #atMs = 0;

  override get nowMs(): number {
    return this.#atMs;
  }

  protected override async utter(): Promise<number> {
    this.#atMs += LINE_MS;
    return this.#atMs;
  }

  protected override async listen(): Promise<void> {
    await Promise.resolve();
  }

  override async until(ms: number): Promise<void> {
    this.#atMs = Math.max(this.#atMs, Math.ceil(ms));
  }
}

export interface SeatedRecord {
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly closing: Closing | null;
  readonly head: Head;
  /** The file. */
  readonly text: string;
}

/** The record of what was said at an operatory; sealed if asked. */
export async function recordOfChair(chair: Operatory, sealed = true): Promise<SeatedRecord> {
  const { case: caseFile } = chair.state;
  const header = makeHeader({
    invented: true,
    software: 'seatcall test',
    opened: new Date(OPENED).toISOString(),
    case: caseFile,
    plan: makePlan(caseFile),
  });
  let head = openRecord(header);
  const entries: Entry[] = [];
  for (const { at, command, outcome, tooth, step } of chair.told) {
    const wall = new Date(OPENED + at).toISOString();
    const stamp = { at, wall, mono: at, who: 'dentist', via: 'voice', heard: null } as const;
    const entry = append(head, { stamp, tooth, step, command, outcome });
    entries.push(entry);
    head = headAfter(entry);
  }
  const closing = sealed
    ? await close(await makeKey(), head, new Date(OPENED + head.at + 1000).toISOString())
    : null;
  const text = toJsonLines([header, ...entries, ...(closing === null ? [] : [closing])]);
  return { header, entries, closing, head, text };
}

/** The record of a whole appointment. */
export async function seatedRecord(
  caseFile: CaseFile,
  seat: (talk: Talk) => Promise<void>,
): Promise<SeatedRecord> {
  const talk = new QuietTalk(caseFile);
  await seat(talk);
  return recordOfChair(talk.chair);
}
