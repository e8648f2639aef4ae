import { canonical } from './canonical.ts';
import { foreignBytes, hostilityOfLine, MAX_LINE } from './json-text.ts';

/** Most lines that are read: a command every five seconds for six days. */
export const MAX_LINES = 100_000;
/** Most bytes of a file that are read: a record of a long day is under one megabyte. */
export const MAX_FILE_BYTES = 64 * 1024 * 1024;

/** One line as it stands in a file, and what it says. */
export interface JsonLine {
  readonly text: string;
  readonly value: unknown;
}

/** What was read. `lines` are all good lines before the first bad one; nothing after it is. */
export interface JsonLines {
  readonly lines: readonly JsonLine[];
  /** The first bad line, counted from 1; null when every line is good. */
  readonly problem: LineProblem | null;
}

export interface LineProblem {
  readonly line: number;
  readonly message: string;
  /** The file ends in this line: it was cut off. */
  readonly cut?: true;
}

/** A file: its text, its bytes, or its bytes piece by piece. */
export type FileInput = string | Uint8Array | Iterable<Uint8Array>;

const LF = 10;
const TOO_LONG = `This line is longer than ${MAX_LINE} characters.`;
/** At most three UTF-8 bytes a UTF-16 unit: a longer line is not even kept, let alone decoded. */
const MAX_LINE_BYTES = 3 * MAX_LINE;

/** A line with its reason when it is bad before anything is read of it. */
interface Piece {
  readonly text: string;
  /** A line end follows. */
  readonly ended: boolean;
  readonly bad: string | null;
}

const bad = (message: string): Piece => ({ text: '', ended: false, bad: message });

function* linesOfText(text: string): Generator<Piece> {
  for (let from = 0; from < text.length;) {
    const end = text.indexOf('\n', from);
    const ended = end >= 0;
    const to = ended ? end : text.length;
    if (to - from > MAX_LINE) yield bad(TOO_LONG);
    else yield { text: text.slice(from, to), ended, bad: null };
    from = to + 1;
  }
}

/** `before` and `after` as one. */
function joined(before: Uint8Array, after: Uint8Array): Uint8Array {
  if (before.length === 0) return after;
  const both = new Uint8Array(before.length + after.length);
  both.set(before);
  both.set(after, before.length);
  return both;
}

/** Bytes of the line that goes on into the next piece; copied, since a reader may fill its buffer again. */
class Rest {
  #parts: Uint8Array[] = [];
  length = 0;

  add(part: Uint8Array): void {
    if (part.length === 0) return;
    this.#parts.push(Uint8Array.from(part));
    this.length += part.length;
  }

  /** The line up to `end`, its last bytes; the rest is empty afterwards. */
  take(end: Uint8Array): Uint8Array {
    if (this.length === 0) return end;
    const whole = new Uint8Array(this.length + end.length);
    let at = 0;
    for (const part of [...this.#parts, end]) {
      whole.set(part, at);
      at += part.length;
    }
    this.#parts = [];
    this.length = 0;
    return whole;
  }
}

/** The lines, decoded one by one so that a bad byte is located; never more than one is held. */
function* linesOfBytes(pieces: Iterable<Uint8Array>): Generator<Piece> {
  const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const decode = (bytes: Uint8Array, ended: boolean): Piece => {
    if (bytes.length > MAX_LINE_BYTES) return bad(TOO_LONG);
    try {
      return { text: utf8.decode(bytes), ended, bad: null };
    } catch {
      return bad('This line is not UTF-8 text.');
    }
  };
  const rest = new Rest();
  let size = 0;
  let start: Uint8Array | null = new Uint8Array();
  for (const piece of pieces) {
    size += piece.length;
    if (start !== null) {
      start = joined(start, Uint8Array.from(piece.subarray(0, 4)));
      const alien = foreignBytes(start);
      if (alien !== null) yield bad(alien);
      if (start.length >= 4) start = null;
    }
    let from = 0;
    for (let end = piece.indexOf(LF); end >= 0; end = piece.indexOf(LF, from)) {
      yield decode(rest.take(piece.subarray(from, end)), true);
      from = end + 1;
    }
    rest.add(piece.subarray(from));
    if (rest.length > MAX_LINE_BYTES) yield bad(TOO_LONG);
    if (size > MAX_FILE_BYTES)
      yield bad(`The file is larger than ${MAX_FILE_BYTES / 1024 / 1024} MB: it is no record.`);
  }
  if (rest.length > 0) yield decode(rest.take(new Uint8Array()), false);
}

function piecesOf(input: FileInput): Generator<Piece> {
  if (typeof input === 'string') return linesOfText(input);
  return linesOfBytes(input instanceof Uint8Array ? [input] : input);
}

const CUT = 'This line has no line end: the file was cut off in it, or after it.';

function read({ text, ended, bad: why }: Piece): { value: unknown } | { message: string } {
  if (why !== null) return { message: why };
  if (text.length > MAX_LINE) return { message: TOO_LONG };
  if (!ended) return { message: CUT };
  if (text.startsWith('\uFEFF'))
    return { message: 'This line starts with a byte order mark; a record has none.' };
  if (text.trim() === '') return { message: 'This line is blank.' };
  if (text.endsWith('\r'))
    return {
      message: 'This line ends in CR LF; a record has LF: another program rewrote the file.',
    };
  const hostile = hostilityOfLine(text);
  if (hostile !== null) return { message: `This line ${hostile}.` };
  try {
    const value: unknown = JSON.parse(text);
    return { value };
  } catch {
    return { message: 'This line is not JSON.' };
  }
}

/**
 * Reads JSON Lines: UTF-8, one JSON value a line, each ended by LF. Never throws, unless the
 * pieces do; the good lines before the first bad one are kept, and nothing is read after it, so
 * that a line or a file without an end costs no more than the limits: {@link MAX_LINE} characters
 * a line, {@link MAX_LINES}, {@link MAX_FILE_BYTES}, and 32 levels of nesting. Keys that reach a
 * prototype are refused. A file on disk is best given piece by piece.
 */
export function parseJsonLines(input: FileInput): JsonLines {
  const lines: JsonLine[] = [];
  for (const piece of piecesOf(input)) {
    const got =
      lines.length === MAX_LINES
        ? { message: `The file has more than ${MAX_LINES} lines: it is no record.` }
        : read(piece);
    if ('message' in got) {
      const { message } = got;
      const cut = message === CUT ? ({ cut: true } as const) : {};
      return { lines, problem: { line: lines.length + 1, message, ...cut } };
    }
    lines.push({ text: piece.text, value: got.value });
  }
  if (lines.length === 0) return { lines, problem: { line: 1, message: 'The file is empty.' } };
  return { lines, problem: null };
}

/** The file of a record: each line in its canonical form, ended by LF. */
export function toJsonLines(lines: readonly unknown[]): string {
  return lines.map((line) => `${canonical(line)}\n`).join('');
}
