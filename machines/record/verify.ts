import { Line } from '../contract/index.ts';
import type {
  Checkpoint,
  Closing,
  Entry,
  EntryLine,
  Header,
  HeaderLine,
  WrittenLine,
} from '../contract/index.ts';
import { canonical, digestText } from './canonical.ts';
import type { Head } from './chain.ts';
import { parseJsonLines } from './json-lines.ts';
import type { FileInput, JsonLine, LineProblem } from './json-lines.ts';
import { hostility } from './json-text.ts';
import { canonicalOf, isSpelled } from './spelling.ts';

/** A record whose lines all fit. */
export interface Verified {
  readonly ok: true;
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly closing: Closing | null;
  readonly checkpoint: Checkpoint | null;
  readonly head: Head;
  /** The record's name: SHA-256 of its header as it was written. */
  readonly caseId: string;
  /** What is kept and given on, so that digests stay what they are. */
  readonly written: Written;
}

/** A record's lines as they were written, without what today's schema adds by default; a checkpoint is no part of it. */
export interface Written {
  readonly header: HeaderLine;
  readonly lines: readonly (EntryLine | Closing)[];
}

/** The good lines before the fault. */
export interface Intact {
  readonly header: Header | null;
  readonly entries: readonly Entry[];
  readonly head: Head | null;
}

/** A record that does not fit, and where. */
export interface Refuted {
  readonly ok: false;
  /** The line at fault, counted from 1. */
  readonly line: number;
  /** The entry at fault; null when it is the header or the seal. */
  readonly entry: number | null;
  readonly message: string;
  readonly intact: Intact;
  /** What the file still has, when nothing is wrong with it but that it ends in the middle of a line. */
  readonly cut: Cut | null;
  /** The seal and its line, when only its signature can tell whether it or what it seals was changed. */
  readonly suspect: Suspect | null;
}

/** A record whose file was cut off. Its last entry has nothing after it that vouches for it. */
export interface Cut {
  readonly header: Header;
  /** Whole, chained, and without a seal. */
  readonly entries: readonly Entry[];
  readonly caseId: string;
  readonly written: Written;
}

export interface Suspect {
  readonly seal: Closing | Checkpoint;
  readonly line: number;
}

export type Verdict = Verified | Refuted;

/**
 * SHA-256 of a text's UTF-8 bytes, 64 lower-case hex digits. `machines` has its own; where the
 * platform has a faster one, it may be given.
 */
export type Sum = (text: string) => string;

/** How a line is named in a message; `i` counts lines from 0, so it is the entry's number too. */
function nameOf(i: number, line?: Line): string {
  if (i === 0) return 'The header';
  if (line?.kind === 'closing' || line?.kind === 'checkpoint') return `The ${line.kind}`;
  return `Entry ${i}`;
}

interface Fault {
  /** Line at fault, from 0. */
  readonly i: number;
  readonly message: string;
  /** The line is the seal, not an entry. */
  readonly seal?: boolean;
  readonly suspect?: Suspect;
}

function isSeal(line: Line): line is Closing | Checkpoint {
  return line.kind === 'closing' || line.kind === 'checkpoint';
}

/** Whether a line that fits no schema was meant as a seal. */
function looksSealed(value: unknown): boolean {
  return typeof value === 'object' && value !== null && 'signature' in value;
}

/** A line as it was written, and as the contract reads it. */
interface Read {
  readonly written: WrittenLine;
  readonly line: Line;
}

/** Whether the schema has taken the value, which is then of that schema's input. */
function wasTaken(
  value: unknown,
  { success }: { readonly success: boolean },
): value is WrittenLine {
  // Nothing that is no value at all is taken.
  return success && value !== undefined;
}

/** The line as the contract has it, or why it isn't. */
function readLine({ text, value }: JsonLine, i: number): Read | Fault {
  const parsed = Line.safeParse(value);
  if (!parsed.success || !wasTaken(value, parsed)) {
    const [issue] = parsed.error?.issues ?? [];
    const where =
      issue === undefined ? '' : ` (${issue.path.join('.') || 'line'}: ${issue.message})`;
    const seal = looksSealed(value);
    const name = seal ? 'The seal' : nameOf(i);
    return { i, message: `${name} is not a line of a record${where}.`, seal };
  }
  if (!isSpelled(text, value, parsed.data)) {
    const hostile = hostility(text);
    const why = hostile === null ? '' : ` It ${hostile}.`;
    return {
      i,
      message: `${nameOf(i, parsed.data)} is not in its canonical form (RFC 8785): it was rewritten.${why}`,
      seal: isSeal(parsed.data),
    };
  }
  return { written: value, line: parsed.data };
}

class Walk {
  readonly #lines: readonly JsonLine[];
  readonly #digests: string[] = [];
  header: Header | null = null;
  entries: Entry[] = [];
  writtenHeader: HeaderLine | null = null;
  readonly writtenLines: (EntryLine | Closing)[] = [];
  seal: Closing | Checkpoint | null = null;
  readonly #sum: Sum;

  constructor(lines: readonly JsonLine[], sum: Sum) {
    this.#lines = lines;
    this.#sum = sum;
  }

  /** SHA-256 of line `i` as it stands. */
  #digestOf(i: number): string {
    return (this.#digests[i] ??= this.#sum(this.#lines[i]?.text ?? ''));
  }

  /** Whether the line after `i` carries its digest: then `i` itself was not changed. */
  #vouched(i: number): boolean {
    const next = this.#lines[i + 1]?.value;
    return (
      typeof next === 'object' && next !== null && 'prev' in next && next.prev === this.#digestOf(i)
    );
  }

  get caseId(): string {
    return this.#digestOf(0);
  }

  get head(): Head | null {
    const at = this.entries.at(-1)?.stamp.at ?? 0;
    const n = this.entries.length;
    return this.header === null ? null : { n, digest: this.#digestOf(n), at };
  }

  #numbering(i: number, line: Entry | Closing | Checkpoint): Fault | null {
    if (line.n === i) return null;
    const again = line.n < i && this.#vouched(i);
    const message = again
      ? `Entry ${line.n} stands twice: a line was put in before this one.`
      : `${nameOf(i, line)} has number ${line.n} where ${i} is due: it was changed, or lines were left out, put in or moved.`;
    const suspect = isSeal(line) ? { suspect: { seal: line, line: i + 1 }, seal: true } : {};
    return { i: again ? line.n : i, message, ...suspect };
  }

  #link(i: number, line: Entry | Closing | Checkpoint): Fault | null {
    if (line.prev === this.#digestOf(i - 1)) return null;
    const last = i + 1 >= this.#lines.length;
    if (!last && !this.#vouched(i)) {
      return {
        i,
        message: `${nameOf(i)} was changed: the entry after it does not carry its digest, nor it that of the line before.`,
      };
    }
    const message = `${nameOf(i - 1)} was changed after it was written, or put there from another record: ${nameOf(i, line).toLowerCase()} does not carry its digest.`;
    return { i: i - 1, message, ...(isSeal(line) ? { suspect: { seal: line, line: i + 1 } } : {}) };
  }

  #place(i: number, { line, written }: Read): Fault | null {
    if (this.seal !== null) return { i, message: `Something stands after the ${this.seal.kind}.` };
    if (i === 0) {
      if (line.kind !== 'header' || written.kind !== 'header')
        return { i, message: 'The first line is not a header.' };
      if (line.planDigest !== this.#sum(canonicalOf(written.plan)))
        return { i, message: "The header's plan is not the one its digest was made of." };
      this.header = line;
      this.writtenHeader = written;
      return null;
    }
    if (line.kind === 'header')
      return { i, message: 'Another header: another record starts here.' };
    const fault = this.#numbering(i, line) ?? this.#link(i, line);
    if (fault !== null) {
      // A line proved wrong is not part of what is intact.
      if (fault.i < i) this.entries.length = Math.max(0, fault.i - 1);
      if (fault.i === 0) this.header = null;
      return fault;
    }
    if (written.kind === 'entry' || written.kind === 'closing') this.writtenLines.push(written);
    if (line.kind !== 'entry') {
      this.seal = line;
      return null;
    }
    const before = this.entries.at(-1)?.stamp.at ?? 0;
    if (line.stamp.at < before)
      return {
        i,
        message: `Entry ${i} runs backwards in time: ${line.stamp.at} ms after ${before} ms.`,
      };
    this.entries.push(line);
    return null;
  }

  /** Goes through all lines; the first fault, or null. */
  run(): Fault | null {
    for (const [i, raw] of this.#lines.entries()) {
      const read = readLine(raw, i);
      if ('message' in read) return read;
      const fault = this.#place(i, read);
      if (fault !== null) return fault;
    }
    return null;
  }
}

function judge(
  lines: readonly JsonLine[],
  problem: LineProblem | null,
  expected: Pick<Head, 'n' | 'digest'> | undefined,
  sum: Sum,
): Verdict {
  const walk = new Walk(lines, sum);
  let fault = walk.run();
  const torn = fault === null && problem?.cut === true && walk.seal === null;
  if (fault === null && problem !== null) {
    const i = problem.line - 1;
    const named = walk.seal === null ? `${nameOf(i)}: ` : '';
    fault = { i, message: `${named}${problem.message}`, seal: walk.seal !== null };
  }
  const { header, entries, head, seal, writtenHeader, writtenLines, caseId } = walk;
  if (fault === null && (header === null || head === null))
    fault = { i: 0, message: 'There is no header: the record is empty.' };
  if (fault === null && expected !== undefined && head !== null) {
    if (head.n < expected.n)
      fault = {
        i: head.n + 1,
        message: `Entry ${head.n + 1} is missing: the record was cut off after entry ${head.n} of ${expected.n}.`,
      };
    else if (head.n > expected.n)
      fault = {
        i: expected.n + 1,
        message: `Entry ${expected.n + 1} was added to a record of ${expected.n}.`,
      };
    else if (head.digest !== expected.digest)
      fault = {
        i: head.n,
        message: `${nameOf(head.n)} is not the one that was expected to be the last.`,
      };
  }
  if (fault === null && header !== null && head !== null && writtenHeader !== null) {
    const closing = seal?.kind === 'closing' ? seal : null;
    const checkpoint = seal?.kind === 'checkpoint' ? seal : null;
    const written = { header: writtenHeader, lines: writtenLines };
    return { ok: true, header, entries, closing, checkpoint, head, caseId, written };
  }
  const { i, message, suspect = null, seal: atSeal = false } = fault ?? { i: 0, message: '' };
  const entry = i === 0 || atSeal ? null : i;
  const cut =
    torn && header !== null && writtenHeader !== null
      ? { header, entries, caseId, written: { header: writtenHeader, lines: writtenLines } }
      : null;
  return {
    ok: false,
    line: i + 1,
    entry,
    message,
    intact: { header, entries, head },
    cut,
    suspect,
  };
}

/**
 * Checks a record's lines: schema, chain, numbering, case time, the plan's digest, nothing after
 * the seal. The seal's signature is not checked here: see `verifySealed`. A record without a seal
 * that was cut at a line end cannot be told from a shorter one, nor one whose last line was
 * changed from one written so, unless its `expected` head is given.
 * Never throws.
 */
export function verify(lines: readonly unknown[], expected?: Pick<Head, 'n' | 'digest'>): Verdict {
  const good: JsonLine[] = [];
  for (const value of lines) {
    try {
      good.push({ text: canonical(value), value });
    } catch {
      return judge(
        good,
        { line: good.length + 1, message: 'This line is not JSON.' },
        expected,
        digestText,
      );
    }
  }
  return judge(good, null, expected, digestText);
}

/**
 * {@link verify} for a file, read with the limits of `parseJsonLines`; it also holds every line to
 * its canonical spelling. Never throws, unless the file's pieces do.
 */
export function verifyText(
  input: FileInput,
  expected?: Pick<Head, 'n' | 'digest'>,
  sum: Sum = digestText,
): Verdict {
  const { lines, problem } = parseJsonLines(input);
  return judge(lines, problem, expected, sum);
}
