import { describe, expect, it } from 'vitest';
import {
  MAX_FILE_BYTES,
  MAX_LINE,
  MAX_LINES,
  parseJson,
  parseJsonLines,
  toJsonLines,
  verifyText,
} from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const { header, entries } = sampleRecord(3);
const good = toJsonLines([header, ...entries]);
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'latin1'));
const utf16 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'utf16le'));
const bom = (...mark: number[]): Uint8Array => Uint8Array.from([...mark, ...utf8(good)]);

/** The record with its third line, entry 2, changed. */
const withLine = (change: (line: string) => string): Uint8Array => {
  const lines = good.split('\n');
  return utf8(lines.with(2, change(lines[2] ?? '')).join('\n'));
};

/** Pieces of a file without an end, and how many of them were asked for. */
function endless(piece: Uint8Array) {
  const asked = { pieces: 0 };
  function* pieces(): Generator<Uint8Array> {
    for (;;) {
      asked.pieces += 1;
      yield piece;
    }
  }
  return { asked, pieces: pieces() };
}

describe('a hostile record file', () => {
  it.each([
    ['UTF-16 with its mark', bom(0xff, 0xfe), 1, 'The file is UTF-16; a record is UTF-8.'],
    ['UTF-16, big end first', bom(0xfe, 0xff), 1, 'The file is UTF-16; a record is UTF-8.'],
    [
      'UTF-16 without a mark',
      utf16(good),
      1,
      'The file is UTF-16 without a mark, or no text; a record is UTF-8.',
    ],
    [
      'UTF-32',
      Uint8Array.from([0x7b, 0, 0, 0, 0x22, 0, 0, 0]),
      1,
      'The file is UTF-32 without a mark, or no text; a record is UTF-8.',
    ],
    [
      'a byte order mark',
      bom(0xef, 0xbb, 0xbf),
      1,
      'The header: This line starts with a byte order mark; a record has none.',
    ],
    ['ISO 8859-1', latin1(good.replace('€', 'e')), 1, 'This line is not UTF-8 text.'],
    [
      'bzip2',
      Uint8Array.from([0x42, 0x5a, 0x68, 0x39]),
      1,
      'The file is compressed; unpack it first.',
    ],
    [
      'xz',
      Uint8Array.from([0xfd, 0x37, 0x7a, 0x58, 0x5a]),
      1,
      'The file is compressed; unpack it first.',
    ],
    [
      'zstd',
      Uint8Array.from([0x28, 0xb5, 0x2f, 0xfd]),
      1,
      'The file is compressed; unpack it first.',
    ],
    [
      'a prototype key spelled by escapes',
      withLine((line) => line.replace('{', String.raw`{"\u005f_proto__":{"n":9},`)),
      3,
      'Entry 2: This line has a forbidden key, __proto__.',
    ],
    [
      'a constructor key deep inside',
      withLine((line) => line.replace('"stamp":{', '"stamp":{"constructor":{},')),
      3,
      'Entry 2: This line has a forbidden key, constructor.',
    ],
    [
      'the same key twice',
      withLine((line) => line.replace('"n":2', '"n":1,"n":2')),
      3,
      'Entry 2 is not in its canonical form (RFC 8785): it was rewritten. It has the key n twice.',
    ],
    [
      'nesting beyond all bounds',
      withLine(() => '[{"a":'.repeat(200_000)),
      3,
      'Entry 2: This line nests deeper than 32 levels.',
    ],
    ['a picture', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), 1, 'UTF-8'],
    ['a page', utf8('<!doctype html>\n'), 1, 'The header: This line is not JSON.'],
    ['a null', utf8('null\n'), 1, 'The header is not a line of a record'],
  ])('%s: refused with its line', (_, file, line, message) => {
    const verdict = verifyText(file);
    expect(verdict).toMatchObject({ ok: false, line });
    expect(verdict).toHaveProperty('message', expect.stringContaining(message));
  });

  it('says the same of a file it gets piece by piece', () => {
    const file = withLine((line) => line.replace('"n":2', '"n":1,"n":2'));
    const pieces = Array.from({ length: file.length }, (_, i) => file.subarray(i, i + 1));
    expect(verifyText(pieces)).toEqual(verifyText(file));
  });

  it('never reads the rest of a line without an end', () => {
    const { asked, pieces } = endless(utf8('x'.repeat(65_536)));
    expect(parseJsonLines(pieces).problem).toEqual({
      line: 1,
      message: `This line is longer than ${MAX_LINE} characters.`,
    });
    // Three bytes a character at most: of 200 MB in one line no more than this is looked at.
    expect(asked.pieces).toBe((3 * MAX_LINE) / 65_536 + 1);
  });

  it('never reads the rest of a file with too many lines, or too many bytes', () => {
    const short = endless(utf8('1\n'.repeat(512)));
    expect(parseJsonLines(short.pieces).problem).toEqual({
      line: MAX_LINES + 1,
      message: `The file has more than ${MAX_LINES} lines: it is no record.`,
    });
    expect(short.asked.pieces).toBe(Math.ceil((MAX_LINES + 1) / 512));
    const long = endless(utf8(`"${'x'.repeat(1024 * 1024)}"\n`));
    expect(parseJsonLines(long.pieces).problem?.message).toBe(
      'The file is larger than 64 MB: it is no record.',
    );
    expect(long.asked.pieces).toBe(MAX_FILE_BYTES / 1024 / 1024);
  });

  it('leaves prototypes alone', () => {
    parseJsonLines('{"__proto__":{"polluted":1}}\n');
    parseJson(utf8('{"__proto__":{"polluted":1}}'));
    expect({}).not.toHaveProperty('polluted');
  });
});

describe('a JSON file of one value', () => {
  it('is read, over many lines', () => {
    expect(parseJson(utf8('{\n  "a": [1, "é"]\n}\n'))).toEqual({
      ok: true,
      value: { a: [1, 'é'] },
    });
    expect(parseJson(Uint8Array.from([0xef, 0xbb, 0xbf, 0x31]))).toEqual({ ok: true, value: 1 });
  });

  it.each([
    ['nothing', utf8(''), null, 'The file is empty.'],
    ['UTF-16', utf16('{"a":1}'), null, 'The file is UTF-16 without a mark'],
    ['ISO 8859-1', latin1('"é"'), null, 'The file is not UTF-8 text.'],
    ['a key twice', utf8('{"a":1,\n "\\u0061":2}'), null, 'The file has the key a twice.'],
    ['deep nesting', utf8('['.repeat(99)), null, 'The file nests deeper than 32 levels.'],
    ['a prototype key', utf8('{"__proto__" : 1}'), null, 'The file has a forbidden key'],
    ['a slip', utf8('{"a": 1,\n "b" 2}'), 2, 'The file is not JSON: '],
    ['far too much', new Uint8Array(3 * MAX_LINE + 1).fill(0x20), null, 'The file is longer than'],
  ])('%s: refused', (_, file, line, message) => {
    const read = parseJson(file);
    expect(read).toMatchObject({ ok: false, line });
    expect(read).toHaveProperty('message', expect.stringContaining(message));
  });
});
