import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSpelled } from '../../machines/record/spelling.ts';
import { canonical, parseJsonLines } from '../../machines/record/index.ts';

/** Any UTF-16 units, halves of surrogate pairs among them. */
const wild = fc.string({
  unit: fc.integer({ min: 0, max: 0xffff }).map((unit) => String.fromCharCode(unit)),
  maxLength: 6,
});
const { tree } = fc.letrec<{ tree: unknown }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    fc.oneof(wild, fc.double({ noNaN: true, noDefaultInfinity: true }), fc.boolean()),
    fc.constantFrom(null, 0, -0, 1e21, 1e-7, '__proto__', ' x', ''),
    fc.array(tie('tree'), { maxLength: 4 }),
    fc.dictionary(fc.oneof(wild, fc.constantFrom('1', '2', '10', '', 'a', 'b')), tie('tree'), {
      maxKeys: 4,
    }),
  ),
}));

/** {@link canonical}, or null where there is none. */
function canonicalOrNull(value: unknown): string | null {
  try {
    return canonical(value);
  } catch {
    return null;
  }
}

/** The value as a schema may change it: strings trimmed, members left out or added. */
function changed(value: unknown, how: string): unknown {
  if (how === 'same') return structuredClone(value);
  if (typeof value === 'string') return how === 'trim' ? value.trim() : value;
  if (Array.isArray(value))
    return how === 'indexed'
      ? Object.fromEntries(value.entries())
      : value.map((item) => changed(item, how));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, item]) => [key, changed(item, how)] as const);
  if (how === 'drop') return Object.fromEntries(entries.slice(1));
  if (how === 'add') return Object.fromEntries([...entries, ['zz', 1], ['nothing', undefined]]);
  if (how === 'turn') return Object.fromEntries(entries.toReversed());
  return Object.fromEntries(entries);
}

/** What of `read` stands under the members of `raw`; a mark where a member is gone. */
function under(raw: unknown, read: unknown): unknown {
  if (Array.isArray(raw))
    return Array.isArray(read) && raw.length === read.length
      ? raw.map((item, i) => under(item, read[i]))
      : 'another list';
  if (typeof raw !== 'object' || raw === null) return read;
  if (typeof read !== 'object' || read === null || Array.isArray(read)) return 'no object';
  return Object.fromEntries(
    Object.entries(raw).map(([key, item]: [string, unknown]) => [
      key,
      Object.hasOwn(read, key) ? under(item, Reflect.get(read, key)) : 'gone',
    ]),
  );
}

describe('the short way to tell a canonical spelling', () => {
  it('says what RFC 8785 says, for any value, spelling and change a schema makes', () => {
    fc.assert(
      fc.property(
        tree,
        fc.constantFrom('canonical', 'plain', 'spaced'),
        fc.constantFrom('same', 'trim', 'drop', 'add', 'turn', 'indexed'),
        (value, spelling, how) => {
          const text =
            (spelling === 'canonical' ? canonicalOrNull(value) : null) ??
            JSON.stringify(value, null, spelling === 'spaced' ? 1 : 0);
          const raw: unknown = JSON.parse(text);
          const read = changed(raw, how);
          const spelled = canonicalOrNull(raw) === text;
          const says = canonicalOrNull(under(raw, read)) === text;
          expect(isSpelled(text, raw, read)).toBe(spelled && says);
        },
      ),
      { numRuns: 5000 },
    );
  });

  it('takes no escaped half of a surrogate pair', () => {
    const text = String.raw`{"a":"\ud83d"}`;
    const raw: unknown = JSON.parse(text);
    expect(JSON.stringify(raw)).toBe(text);
    expect(isSpelled(text, raw, raw)).toBe(false);
  });

  it('takes what has become a member since, and nothing that was changed or left out', () => {
    const spelled = (read: unknown) => isSpelled('{"a":[1],"b":"x"}', { a: [1], b: 'x' }, read);
    expect(spelled({ a: [1], b: 'x', since: null })).toBe(true);
    expect(spelled({ a: [1, 2], b: 'x' })).toBe(false);
    expect(spelled({ a: [1] })).toBe(false);
    expect(spelled({ a: [1], b: 'X' })).toBe(false);
  });

  it('takes no list for an object of the same members', () => {
    expect(isSpelled('{"0":1}', { 0: 1 }, [1])).toBe(false);
  });
});

describe('a file read piece by piece', () => {
  const bytes = new TextEncoder().encode('{"a":"é€😂"}\n{"b":[1,2]}\n\n');

  it('says the same wherever it is cut into pieces, though the buffer is filled again', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 12 }), { maxLength: 20 }),
        fc.nat({ max: bytes.length }),
        (sizes, length) => {
          const file = bytes.subarray(0, length);
          function* pieces() {
            const buffer = new Uint8Array(file.length + 1);
            let from = 0;
            for (const size of [...sizes, file.length]) {
              const piece = file.subarray(from, from + size);
              buffer.set(piece);
              yield buffer.subarray(0, piece.length);
              buffer.fill(0xff);
              from += size;
            }
          }
          expect(parseJsonLines(pieces())).toEqual(parseJsonLines(file));
        },
      ),
      { numRuns: 1000 },
    );
  });
});
