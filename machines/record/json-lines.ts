import { canonical } from './canonical.ts';

/** Longest line that is read, in UTF-16 units: a header with eight units' plans is about a tenth. */
export const MAX_LINE = 4 * 1024 * 1024;
/** Deepest nesting that is read; a header's plan is under ten deep. */
export const MAX_DEPTH = 32;

/** One line as it stands in a file, and what it says. */
export interface JsonLine {
  readonly text: string;
  readonly value: unknown;
}

/** What was read. `lines` are all good lines before the first bad one; nothing after it is. */
export interface JsonLines {
  readonly lines: readonly JsonLine[];
  /** The first bad line, counted from 1; null when every line is good. */
  readonly problem: { readonly line: number; readonly message: string } | null;
}

const LF = 10;
const TOO_LONG = `This line is longer than ${MAX_LINE} characters.`;

interface Piece {
  readonly text: string;
  /** A line end follows. */
  readonly ended: boolean;
  readonly bad: string | null;
}

/** The lines, decoded one by one so that a bad byte is located. */
function* piecesOf(input: string | Uint8Array): Generator<Piece> {
  const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  for (let from = 0; from < input.length;) {
    const end = typeof input === 'string' ? input.indexOf('\n', from) : input.indexOf(LF, from);
    const ended = end >= 0;
    const to = ended ? end : input.length;
    let text = '';
    // At most three UTF-8 bytes a UTF-16 unit: a longer line is not even decoded.
    let bad = to - from > 3 * MAX_LINE ? TOO_LONG : null;
    if (bad === null && typeof input === 'string') text = input.slice(from, to);
    else if (bad === null && typeof input !== 'string') {
      try {
        text = utf8.decode(input.subarray(from, to));
      } catch {
        bad = 'This line is not UTF-8 text.';
      }
    }
    yield { text, ended, bad };
    from = to + 1;
  }
}

/** What kind of file this is when it can't be ours; null when it may be. */
function foreign(input: string | Uint8Array): string | null {
  if (input.length === 0) return 'The file is empty.';
  if (typeof input === 'string') return null;
  const [a, b] = input;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff))
    return 'The file is UTF-16; a record is UTF-8.';
  if ((a === 0x1f && b === 0x8b) || (a === 0x50 && b === 0x4b))
    return 'The file is compressed; unpack it first.';
  return null;
}

/** Whether brackets outside strings nest deeper than {@link MAX_DEPTH}. */
function tooDeep(text: string): boolean {
  let depth = 0;
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    if (quoted) {
      if (unit === 0x5c) i += 1;
      else if (unit === 0x22) quoted = false;
    } else if (unit === 0x22) quoted = true;
    else if (unit === 0x7b || unit === 0x5b) {
      depth += 1;
      if (depth > MAX_DEPTH) return true;
    } else if (unit === 0x7d || unit === 0x5d) depth -= 1;
  }
  return false;
}

// Inside a string value a quote is escaped, so an unescaped one after { or , opens a key.
const PROTOTYPE_KEY = /[{,]\s*"(__proto__|constructor|prototype)"\s*:/;

function read({ text, ended, bad }: Piece): { value: unknown } | { message: string } {
  if (bad !== null) return { message: bad };
  if (text.length > MAX_LINE) return { message: TOO_LONG };
  if (!ended)
    return { message: 'This line has no line end: the file was cut off in it, or after it.' };
  if (text.startsWith('\uFEFF'))
    return { message: 'This line starts with a byte order mark; a record has none.' };
  if (text.trim() === '') return { message: 'This line is blank.' };
  if (text.endsWith('\r'))
    return {
      message: 'This line ends in CR LF; a record has LF: another program rewrote the file.',
    };
  if (tooDeep(text)) return { message: `This line nests deeper than ${MAX_DEPTH} levels.` };
  const key = PROTOTYPE_KEY.exec(text)?.[1];
  if (key !== undefined) return { message: `This line has a forbidden key, ${key}.` };
  try {
    const value: unknown = JSON.parse(text);
    return { value };
  } catch {
    return { message: 'This line is not JSON.' };
  }
}

/**
 * Reads JSON Lines: UTF-8, one JSON value a line, each ended by LF. Never throws; the good
 * lines before the first bad one are kept.
 */
export function parseJsonLines(input: string | Uint8Array): JsonLines {
  const lines: JsonLine[] = [];
  const alien = foreign(input);
  if (alien !== null) return { lines, problem: { line: 1, message: alien } };
  for (const piece of piecesOf(input)) {
    const got = read(piece);
    if ('message' in got)
      return { lines, problem: { line: lines.length + 1, message: got.message } };
    lines.push({ text: piece.text, value: got.value });
  }
  return { lines, problem: null };
}

/** The file of a record: each line in its canonical form, ended by LF. */
export function toJsonLines(lines: readonly unknown[]): string {
  return lines.map((line) => `${canonical(line)}\n`).join('');
}
