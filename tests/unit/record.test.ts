import { describe, expect, it } from 'vitest';
import {
  append,
  canonical,
  caseIdOf,
  digest,
  headAfter,
  makeHeader,
  MAX_LINE,
  openRecord,
  parseJsonLines,
  toJsonLines,
  verify,
  verifyText,
} from '../../machines/record/index.ts';
import { sampleHeader, sampleRecord, sampleStamp } from '../record-maker.ts';

const { header, entries, head } = sampleRecord(3);

/** The entry of a record of three whose member is another, the chain after it made to fit. */
function withEntry(change: Record<string, unknown>): unknown[] {
  return [header, entries[0], { ...entries[1], ...change }];
}

describe('chain', () => {
  it('starts from the header and hands each digest on', () => {
    expect(openRecord(header)).toEqual({ n: 0, digest: caseIdOf(header), at: 0 });
    expect(entries.map(({ n, prev }) => ({ n, prev }))).toEqual([
      { n: 1, prev: digest(header) },
      { n: 2, prev: digest(entries[0]) },
      { n: 3, prev: digest(entries[1]) },
    ]);
    expect(head).toEqual({ n: 3, digest: digest(entries[2]), at: entries[2]?.stamp.at });
  });

  it('refuses time that runs backwards, and a plan that is not the header’s', () => {
    const late = { n: 3, digest: digest('x'), at: 5000 };
    const happening = {
      stamp: sampleStamp(0, 4999),
      tooth: null,
      step: null,
      command: { type: 'next' },
      outcome: { kind: 'asked' },
    } as const;
    expect(() => append(late, happening)).toThrow(
      'Case time would run backwards: 4999 ms after 5000 ms (entry 3).',
    );
    expect(append(late, { ...happening, stamp: sampleStamp(0, 5000) })).toMatchObject({ n: 4 });
    expect(() => openRecord({ ...header, planDigest: digest('another') })).toThrow(RangeError);
  });

  it('names the plan by its digest', () => {
    const { invented, software, opened, plan } = header;
    const made = makeHeader({ invented, software, opened, case: header.case, plan });
    expect(made.planDigest).toEqual(digest(plan));
    expect(made).toEqual(header);
  });
});

describe('verify', () => {
  it('gives back what a good record holds', () => {
    expect(verify([header, ...entries])).toEqual({
      ok: true,
      header,
      entries,
      closing: null,
      checkpoint: null,
      head,
      caseId: caseIdOf(header),
      written: { header, lines: entries },
    });
    expect(verify([header])).toMatchObject({ ok: true, entries: [], head: openRecord(header) });
  });

  it('says what is wrong, where, and what before it is intact', () => {
    const intact = { header, entries: [entries[0]], head: headAfter(entries[0] ?? fail()) };
    expect(verify(withEntry({ n: 2, kind: 'entry', who: 'x' }))).toEqual({
      ok: false,
      line: 3,
      entry: 2,
      message: 'Entry 2 is not a line of a record (line: Unrecognized key: "who").',
      intact,
      cut: null,
      suspect: null,
    });
    const stamp = { ...entries[1]?.stamp, at: 0 };
    const slow = append(openRecord(header), {
      stamp: sampleStamp(0, 10),
      tooth: null,
      step: null,
      command: { type: 'next' },
      outcome: { kind: 'asked' },
    });
    const back = { ...entries[1], prev: digest(slow), stamp };
    expect(verify([header, slow, back])).toMatchObject({
      line: 3,
      entry: 2,
      message: 'Entry 2 runs backwards in time: 0 ms after 10 ms.',
      intact: { header, entries: [slow] },
    });
  });

  it.each([
    ['nothing', [], 1, null, 'There is no header: the record is empty.'],
    ['no header', [entries[0]], 1, null, 'The first line is not a header.'],
    ['a second header', [header, header], 2, 1, 'Another header: another record starts here.'],
    [
      'another plan',
      [{ ...header, planDigest: digest(1) }],
      1,
      null,
      "The header's plan is not the one its digest was made of.",
    ],
    ['what is not JSON', [header, undefined], 2, 1, 'Entry 1: This line is not JSON.'],
    [
      'a bare number',
      [7],
      1,
      null,
      'The header is not a line of a record (line: Invalid input: expected object, received number).',
    ],
    [
      'white space round a note',
      [
        header,
        append(openRecord(header), {
          stamp: sampleStamp(1, 0),
          tooth: null,
          step: null,
          command: { type: 'note', text: 'x' },
          outcome: { kind: 'accepted', deviation: null },
        }),
      ].map((line, i) => (i === 1 ? { ...line, command: { type: 'note', text: ' x' } } : line)),
      2,
      1,
      'Entry 1 is not in its canonical form (RFC 8785): it was rewritten.',
    ],
  ])('refuses %s', (_, lines, line, entry, message) => {
    expect(verify(lines)).toMatchObject({ ok: false, line, entry, message });
  });

  it('holds a record to the head it should have', () => {
    const lines = [header, ...entries];
    expect(verify(lines, head)).toMatchObject({ ok: true });
    expect(verify(lines, { n: 3, digest: digest('x') })).toMatchObject({ ok: false, entry: 3 });
    expect(verify(lines, { n: 2, digest: entries[2]?.prev ?? '' })).toMatchObject({
      ok: false,
      entry: 3,
      message: 'Entry 3 was added to a record of 2.',
    });
  });
});

describe('JSON Lines', () => {
  const good = toJsonLines([header, ...entries]);
  const at = (line: number, message: string) => ({ line, message });

  it.each([
    ['nothing', '', 0, at(1, 'The file is empty.')],
    [
      'no last line end',
      '{"a":1}\n{"b":2}',
      1,
      at(2, 'This line has no line end: the file was cut off in it, or after it.'),
    ],
    [
      'half a line',
      '{"a":1}\n{"b',
      1,
      at(2, 'This line has no line end: the file was cut off in it, or after it.'),
    ],
    ['what is not JSON', '{"a":1}\n{"b"}\n{"c":3}\n', 1, at(2, 'This line is not JSON.')],
    ['a blank line', '{"a":1}\n\n', 1, at(2, 'This line is blank.')],
    [
      'CR LF',
      '{"a":1}\r\n',
      0,
      at(1, 'This line ends in CR LF; a record has LF: another program rewrote the file.'),
    ],
    [
      'a byte order mark',
      '\uFEFF{"a":1}\n',
      0,
      at(1, 'This line starts with a byte order mark; a record has none.'),
    ],
    [
      'a prototype key',
      '{"a":1}\n{"x":{ "__proto__" :{"y":1}}}\n',
      1,
      at(2, 'This line has a forbidden key, __proto__.'),
    ],
    [
      'a huge line',
      `{"a":1}\n"${'x'.repeat(MAX_LINE)}"\n`,
      1,
      at(2, `This line is longer than ${MAX_LINE} characters.`),
    ],
    [
      'deep nesting',
      `{"a":1}\n${'['.repeat(500_000)}\n`,
      1,
      at(2, 'This line nests deeper than 32 levels.'),
    ],
  ])('reports %s, and keeps what came before', (_, text, kept, problem) => {
    const fromText = parseJsonLines(text);
    expect(fromText.problem).toMatchObject(problem);
    expect(fromText.problem?.cut ?? false).toBe(text !== '' && !text.endsWith('\n'));
    expect(fromText.lines).toHaveLength(kept);
    expect(parseJsonLines(new TextEncoder().encode(text))).toEqual(fromText);
  });

  it.each([
    ['UTF-16', [0xff, 0xfe, 0x7b, 0], at(1, 'The file is UTF-16; a record is UTF-8.')],
    ['gzip', [0x1f, 0x8b, 8, 0], at(1, 'The file is compressed; unpack it first.')],
    ['zip', [0x50, 0x4b, 3, 4], at(1, 'The file is compressed; unpack it first.')],
    ['ISO 8859-1', [0x22, 0xe9, 0x22, 10], at(1, 'This line is not UTF-8 text.')],
  ])('tells %s from UTF-8', (_, bytes, problem) => {
    expect(parseJsonLines(Uint8Array.from(bytes))).toEqual({ lines: [], problem });
  });

  it('lets a note speak of keys and brackets', () => {
    const text = canonical({ text: `{"__proto__":1} ${'['.repeat(99)}` });
    expect(parseJsonLines(`${text}\n`).problem).toBeNull();
  });

  it('keeps every acknowledged entry wherever a write was broken off', () => {
    const bytes = new TextEncoder().encode(good);
    const ends = [...bytes.keys()].filter((i) => bytes[i] === 10);
    for (let cut = (ends[0] ?? 0) + 1; cut < bytes.length; cut += 1) {
      const verdict = verifyText(bytes.subarray(0, cut));
      const whole = ends.filter((end) => end < cut).length - 1;
      const kept = verdict.ok ? verdict.entries : verdict.intact.entries;
      expect(kept).toEqual(entries.slice(0, whole));
      expect(verdict.ok).toBe(ends.includes(cut - 1));
    }
  });

  it.each([
    ['spelled with white space', (text: string) => text.replace('"n":1', '"n": 1')],
    ['spelled with another number', (text: string) => text.replace('"n":1', '"n":1.0')],
    ['spelled with an escape', (text: string) => text.replace('"begin"', String.raw`"\u0062egin"`)],
    ['with a key twice', (text: string) => text.replace('"n":1', '"n":1,"n":1')],
  ])('refuses a line %s, although it says the same', (_, change) => {
    const changed = change(good);
    expect(changed).not.toEqual(good);
    expect(verifyText(changed)).toMatchObject({ ok: false });
    expect(verifyText(changed)).toHaveProperty(
      'message',
      expect.stringContaining('is not in its canonical form (RFC 8785): it was rewritten.'),
    );
  });
});

describe('the sample', () => {
  it('is another record for another case', () => {
    expect(caseIdOf(sampleHeader('a'))).not.toEqual(caseIdOf(sampleHeader('b')));
  });
});

function fail(): never {
  throw new Error('no such entry');
}
