/** Longest text of one JSON value that is read, in UTF-16 units: a header with eight units' plans is about a tenth. */
export const MAX_LINE = 4 * 1024 * 1024;
/** Deepest nesting that is read; a header's plan is under ten deep. */
export const MAX_DEPTH = 32;

const TOO_DEEP = `nests deeper than ${MAX_DEPTH} levels`;
/** Keys that would reach an object's prototype where a program copies members without care. */
const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** Index after the string literal that opens at `from`; the text's length when it never closes. */
function endOfString(text: string, from: number): number {
  for (let i = from + 1; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    if (unit === 0x5c) i += 1;
    else if (unit === 0x22) return i + 1;
  }
  return text.length;
}

/** The key that a literal before a colon spells; the literal itself where it spells nothing. */
function keyOf(literal: string): string {
  if (!literal.includes('\\')) return literal.slice(1, -1);
  try {
    return String(JSON.parse(literal));
  } catch {
    return literal;
  }
}

/** Whether a colon is the next thing after `from`, so that the string before it is a key. */
function colonAfter(text: string, from: number): boolean {
  let i = from;
  while (text[i] === ' ' || text[i] === '\t' || text[i] === '\r' || text[i] === '\n') i += 1;
  return text[i] === ':';
}

/**
 * What of a JSON text could mislead a reader: nesting beyond {@link MAX_DEPTH}, a key that reaches
 * a prototype (however it is spelled), a key that stands twice in one object. A predicate such as
 * "has the key n twice", or null. The text need not be JSON.
 */
export function hostility(text: string): string | null {
  const open: (Set<string> | null)[] = [];
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    if (unit === 0x22) {
      const end = endOfString(text, i);
      const keys = open.at(-1);
      if (keys && colonAfter(text, end)) {
        const key = keyOf(text.slice(i, end));
        if (FORBIDDEN.has(key)) return `has a forbidden key, ${key}`;
        if (keys.has(key)) return `has the key ${key.slice(0, 40)} twice`;
        keys.add(key);
      }
      i = end - 1;
    } else if (unit === 0x7b || unit === 0x5b) {
      if (open.length === MAX_DEPTH) return TOO_DEEP;
      open.push(unit === 0x7b ? new Set() : null);
    } else if (unit === 0x7d || unit === 0x5d) open.pop();
  }
  return null;
}

/** The same as they stand in a text, as keys or in values. */
const SUSPECT = /__proto__|constructor|prototype/;

/** Whether the text nests beyond {@link MAX_DEPTH}; what stands in strings does not count. */
function nestsTooDeep(text: string): boolean {
  const escapes = text.includes('\\');
  let depth = 0;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    if (unit === 0x22) {
      // Where nothing is escaped the next quotation mark ends the string.
      const end = escapes ? endOfString(text, i) - 1 : text.indexOf('"', i + 1);
      if (end < 0) return false;
      i = end;
    } else if (unit === 0x7b || unit === 0x5b) {
      depth += 1;
      if (depth > MAX_DEPTH) return true;
    } else if (unit === 0x7d || unit === 0x5d) depth -= 1;
  }
  return false;
}

/** Whether `mark` stands in the text more than `most` times. */
function moreThan(text: string, mark: string, most: number): boolean {
  let found = 0;
  for (let at = text.indexOf(mark); at >= 0; at = text.indexOf(mark, at + 1)) {
    found += 1;
    if (found > most) return true;
  }
  return false;
}

/**
 * {@link hostility} without keys that stand twice, at a fraction of the cost: the text is gone
 * through unit by unit only where it could be deep or spells something by escapes.
 */
export function hostilityOfLine(text: string): string | null {
  const half = MAX_DEPTH / 2;
  if (text.includes(String.raw`\u`) || SUSPECT.test(text)) return hostility(text);
  const flat = !moreThan(text, '{', half) && !moreThan(text, '[', half);
  return flat || !nestsTooDeep(text) ? null : TOO_DEEP;
}

/** What kind of file this is, by its first bytes, when it can't be JSON in UTF-8; null when it may be. */
export function foreignBytes(bytes: Uint8Array): string | null {
  const [a, b, c, d] = bytes;
  const starts = (...mark: number[]): boolean => mark.every((byte, i) => bytes[i] === byte);
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff))
    return 'The file is UTF-16; a record is UTF-8.';
  // JSON starts with an ASCII sign; a zero byte beside it is the other half of a wider one.
  if (a !== undefined && b !== undefined && (a === 0 || b === 0) && c !== undefined)
    return `The file is ${d === 0 && c === 0 ? 'UTF-32' : 'UTF-16'} without a mark, or no text; a record is UTF-8.`;
  if (
    starts(0x1f, 0x8b) ||
    starts(0x50, 0x4b) ||
    starts(0x42, 0x5a, 0x68) ||
    starts(0xfd, 0x37, 0x7a, 0x58) ||
    starts(0x28, 0xb5, 0x2f, 0xfd)
  )
    return 'The file is compressed; unpack it first.';
  return null;
}

/** Why a whole JSON text was not read, or its value. */
export type ReadJson =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly line: number | null; readonly message: string };

/**
 * Reads one JSON value that may stand over many lines, such as a file of findings or of settings:
 * UTF-8, at most {@link MAX_LINE} characters, {@link MAX_DEPTH} deep, no prototype keys, no key
 * twice. Never throws.
 */
export function parseJson(bytes: Uint8Array): ReadJson {
  const refuse = (message: string): ReadJson => ({ ok: false, line: null, message });
  if (bytes.length === 0) return refuse('The file is empty.');
  const alien = foreignBytes(bytes);
  if (alien !== null) return refuse(alien.replace('a record is', 'it should be'));
  if (bytes.length > 3 * MAX_LINE) return refuse(`The file is longer than ${MAX_LINE} characters.`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuse('The file is not UTF-8 text.');
  }
  const hostile = hostility(text);
  if (hostile !== null) return refuse(`The file ${hostile}.`);
  try {
    const value: unknown = JSON.parse(text);
    return { ok: true, value };
  } catch (error) {
    const why = error instanceof Error ? `: ${error.message}` : '';
    return { ok: false, line: faultLine(text, error), message: `The file is not JSON${why}.` };
  }
}

/** The line that JSON.parse stopped in, where the engine says so; counted from 1. */
function faultLine(text: string, error: unknown): number | null {
  const at = error instanceof Error ? /position (\d+)/.exec(error.message)?.[1] : undefined;
  return at === undefined ? null : text.slice(0, Number(at)).split('\n').length;
}
