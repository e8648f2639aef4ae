import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkSignature, checkpoint, close, makeKey } from '../../assistant/store/signing.ts';
import {
  canonical,
  parseJsonLines,
  toJsonLines,
  verify,
  verifySealed,
} from '../../machines/record/index.ts';
import { sampleEntry, sampleRecord } from '../record-maker.ts';

/** Some seconds' work on two idle cores; on a busy machine far more. */
const BUSY_MS = 300_000;
const WALL = '2026-02-03T09:15:00.000Z';
const { header, entries, head } = sampleRecord(8);
const N = entries.length;
const other = sampleRecord(8, 'invented-2');
let lines: unknown[] = [];
let bytes = new Uint8Array();
let openBytes = new Uint8Array();

/** The line (from 1) that byte `i` belongs to; a line end belongs to the line it ends. */
function lineOf(file: Uint8Array, i: number): number {
  return file.subarray(0, i).reduce((line, byte) => (byte === 10 ? line + 1 : line), 1);
}

async function refuted(file: Uint8Array) {
  const verdict = await verifySealed(file, checkSignature);
  if (verdict.ok) throw new Error(`not found: ${new TextDecoder().decode(file)}`);
  return verdict;
}

const fileOf = (some: readonly unknown[]) => new TextEncoder().encode(toJsonLines(some));

beforeAll(async () => {
  const keys = await makeKey();
  lines = [header, ...entries, await close(keys, head, WALL)];
  bytes = fileOf(lines);
  openBytes = fileOf([header, ...entries, await checkpoint(keys, head, WALL)]);
});

describe('a record file', () => {
  it('verifies as it was written', async () => {
    expect(await verifySealed(bytes, checkSignature)).toMatchObject({ ok: true, head });
    expect(await verifySealed(openBytes, checkSignature)).toMatchObject({ ok: true, head });
  });

  it('reads back to the very lines, and writes back to the very bytes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.dictionary(fc.string(), fc.jsonValue()), { minLength: 1 }),
        (some) => {
          const clean = some.map((line) => {
            const { __proto__: _, constructor: __, prototype: ___, ...rest } = { ...line };
            return rest;
          });
          const text = toJsonLines(clean);
          const { lines: read, problem } = parseJsonLines(text);
          fc.pre(problem === null);
          expect(toJsonLines(read.map(({ value }) => value))).toEqual(text);
        },
      ),
    );
  });

  it(
    'is refused with the line and the entry for any one byte altered: every byte, and ten thousand',
    async () => {
      const check = async (file: Uint8Array, at: number, value: number) => {
        const altered = Uint8Array.from(file);
        altered[at] = value;
        const { line, entry } = await refuted(altered);
        const due = lineOf(file, at);
        // A line that no longer reads as JSON is not known to be the seal: its place is its number.
        const named = due === 1 ? [null] : due === N + 2 ? [null, N + 1] : [due - 1];
        expect({ line, named: named.includes(entry) }).toEqual({ line: due, named: true });
      };
      for (let i = 0; i < bytes.length; i += 1) await check(bytes, i, (bytes[i] ?? 0) ^ 1);
      await fc.assert(
        fc.asyncProperty(
          fc.boolean(),
          fc.nat(),
          fc.integer({ min: 1, max: 255 }),
          async (closed, where, flip) => {
            const file = closed ? bytes : openBytes;
            const at = where % file.length;
            await check(file, at, (file[at] ?? 0) ^ flip);
          },
        ),
        { numRuns: 10_000 },
      );
    },
    BUSY_MS,
  );

  it(
    'is refused for any byte dropped, put in or for any cut',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.constantFrom('drop', 'put', 'cut' as const),
          fc.nat(),
          fc.integer({ min: 0, max: 255 }),
          async (how, where, value) => {
            const at = where % bytes.length;
            const before = bytes.subarray(0, at);
            const altered = {
              drop: [...before, ...bytes.subarray(at + 1)],
              put: [...before, value, ...bytes.subarray(at)],
              cut: [...before],
            }[how];
            const verdict = await verifySealed(Uint8Array.from(altered), checkSignature, head);
            // A cut that takes only the seal's line leaves an open record; its head still fits.
            const sealOnly = how === 'cut' && lineOf(bytes, at) === N + 2 && before.at(-1) === 10;
            expect(verdict.ok).toEqual(sealOnly);
          },
        ),
        { numRuns: 3000 },
      );
    },
    BUSY_MS,
  );
});

describe('lines left out, put in, moved, cut or spliced', () => {
  const verdictOf = async (some: readonly unknown[]) => {
    const { line, entry } = await refuted(fileOf(some));
    return { line, entry };
  };

  it('finds the first entry that was left out', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: N }),
        fc.integer({ min: 1, max: 3 }),
        async (k, run) => {
          const some = lines.filter((_, i) => i < k || i >= Math.min(k + run, N + 1));
          expect(await verdictOf(some)).toMatchObject({ entry: k, line: k + 1 });
        },
      ),
    );
  });

  it('finds an entry that stands twice, or was copied elsewhere', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: N }),
        fc.integer({ min: 1, max: N }),
        async (from, to) => {
          const some = [...lines.slice(0, to), lines[from], ...lines.slice(to)];
          const { entry } = await verdictOf(some);
          // Put before or after itself it stands twice; elsewhere it is out of place where it was put.
          expect(entry).toEqual(to === from + 1 ? from : to);
        },
      ),
    );
  });

  it('finds two entries that changed places', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: N }),
        fc.integer({ min: 1, max: N }),
        async (a, b) => {
          fc.pre(a < b);
          const some = lines.with(a, lines[b]).with(b, lines[a]);
          expect(await verdictOf(some)).toEqual({ entry: a, line: a + 1 });
        },
      ),
    );
  });

  it('finds a forged entry with its number and digest made to fit', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: N }), async (k) => {
        const before = entries[k - 2];
        const at = before?.stamp.at ?? 0;
        const prev = entries[k - 1]?.prev ?? '';
        const forged = sampleEntry({ n: k - 1, digest: prev, at }, 99);
        expect(await verdictOf(lines.with(k, forged))).toEqual({ entry: k, line: k + 1 });
      }),
    );
  });

  it('finds where the lines of another case were spliced in', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: N - 1 }), async (k) => {
        const some = [header, ...entries.slice(0, k), ...other.entries.slice(k), lines.at(-1)];
        const { entry } = await verdictOf(some);
        // One foreign entry alone is found itself; of more, the first two vouch for each other.
        const due = k === N - 1 ? N : k;
        expect(entry).toEqual(due === 0 ? null : due);
      }),
    );
  });

  it('finds another header, an old head replayed, and lines after the seal', async () => {
    expect(await verdictOf(lines.with(0, other.header))).toEqual({ line: 1, entry: null });
    expect(await verdictOf([...lines.slice(0, 6), lines.at(-1)])).toEqual({ line: 7, entry: 6 });
    expect(await verdictOf([...lines, entries[0]])).toEqual({ line: N + 3, entry: N + 2 });
    expect(await verdictOf([...lines, lines.at(-1)])).toEqual({ line: N + 3, entry: N + 2 });
  });

  it('tells an open record cut at a line end from a shorter one only by the expected head', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: N - 1 }), (k) => {
        const some = [header, ...entries.slice(0, k)];
        expect(verify(some).ok).toBe(true);
        expect(verify(some, head)).toMatchObject({ ok: false, entry: k + 1, line: k + 2 });
      }),
    );
  });
});

describe('canonical form', () => {
  it('does not depend on the order of keys, and is its own canonical form', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ unit: 'grapheme' }), fc.jsonValue()), (value) => {
        const text = canonical(value);
        const turned = Object.fromEntries(Object.entries(value).toReversed());
        expect(canonical(turned)).toEqual(text);
        expect(canonical(JSON.parse(text))).toEqual(text);
      }),
      { numRuns: 2000 },
    );
  });
});
