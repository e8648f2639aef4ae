import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  checkSignature,
  checkpoint,
  close,
  fingerprint,
  makeKey,
} from '../../assistant/store/signing.ts';
import type { Closing } from '../../machines/contract/index.ts';
import { canonical, digest, toJsonLines, verifySealed } from '../../machines/record/index.ts';
import { sampleEntry, sampleRecord } from '../record-maker.ts';

/** Seconds on two idle cores; a busy machine takes far longer. */
const BUSY_MS = 300_000;
const RUNS = process.env['SEATCALL_NIGHTLY'] === '1' ? 100_000 : 1000;
const WALL = '2026-02-03T09:15:00.000Z';
const LATER = '2026-02-03T09:16:00.000Z';
const { header, entries, head } = sampleRecord(8);
const other = sampleRecord(8, 'invented-2');
const N = entries.length;

type Lines = readonly unknown[];
let keys: CryptoKeyPair;
let foreign: CryptoKeyPair;
let closing: Closing;
let record: Lines = [];

beforeAll(async () => {
  keys = await makeKey();
  foreign = await makeKey();
  closing = await close(keys, head, WALL);
  record = [header, ...entries, closing];
});

const verdictOf = (lines: Lines, expected?: { n: number; digest: string }) =>
  verifySealed(toJsonLines(lines), checkSignature, expected);

/** Entries from `k` on (counted from 1), chained anew after what stands before them. */
function rechained(lines: Lines, k: number): Lines {
  return lines.reduce<readonly unknown[]>((done, line, i) => {
    if (i < k || typeof line !== 'object' || line === null || !('stamp' in line))
      return [...done, line];
    return [...done, { ...line, prev: digest(done.at(-1)) }];
  }, []);
}

const withMembers = (line: unknown, change: object): unknown =>
  typeof line === 'object' && line !== null ? { ...line, ...change } : line;
const edited = (i: number, change: object): Lines => record.with(i, withMembers(record[i], change));
const stampOf = (i: number): object => ({ stamp: { ...entries[i - 1]?.stamp, mono: 9 } });

/** Where a fault must be found: its line and its entry (null: the header or the seal), and in which words. */
type Case = readonly [
  kind: string,
  make: () => Lines | Promise<Lines>,
  line: number,
  entry: number | null,
  message: string,
];

const CASES: readonly Case[] = [
  ['edit: a time', () => edited(3, stampOf(3)), 4, 3, 'Entry 3 was changed'],
  ['edit: the last entry', () => edited(N, stampOf(N)), N + 1, N, `Entry ${N} was changed`],
  [
    'edit, and all after it chained anew',
    () => rechained(edited(3, stampOf(3)), 4),
    N + 1,
    N,
    'does not carry its digest',
  ],
  ['drop: one entry', () => record.toSpliced(4, 1), 5, 4, 'has number 5 where 4 is due'],
  [
    'drop, the rest numbered and chained anew',
    () =>
      rechained(
        record
          .toSpliced(4, 1)
          .map((line, i) => (i >= 4 && i < N ? withMembers(line, { n: i }) : line)),
        4,
      ),
    N + 1,
    N,
    'is missing: the closing was signed after entry',
  ],
  ['drop: the header', () => record.slice(1), 1, null, 'The first line is not a header'],
  ['drop: the last entry', () => record.toSpliced(N, 1), N + 1, N, `Entry ${N} is missing`],
  ['insert: an entry twice', () => record.toSpliced(5, 0, entries[4]), 6, 5, 'was put in'],
  [
    'insert: a forged one that fits',
    () => record.toSpliced(4, 0, sampleEntry({ n: 3, digest: digest(entries[2]), at: 0 }, 50)),
    5,
    4,
    '',
  ],
  [
    'insert: after the closing',
    () => [...record, entries[0]],
    N + 3,
    N + 2,
    'Something stands after the closing',
  ],
  [
    'reorder: two neighbours',
    () => record.with(3, entries[3]).with(4, entries[2]),
    4,
    3,
    'has number 4 where 3 is due',
  ],
  [
    'reorder: the closing before an entry',
    () => record.with(N, closing).with(N + 1, entries[N - 1]),
    N + 1,
    N,
    'is missing: the closing was signed after',
  ],
  [
    'splice: the end of another case',
    () => [header, ...entries.slice(0, 5), ...other.entries.slice(5), closing],
    6,
    5,
    'put there from another record',
  ],
  ['splice: one entry of another case', () => record.with(4, other.entries[3]), 5, 4, 'Entry 4'],
  [
    'splice: two whole records',
    () => [...record, other.header, ...other.entries],
    N + 3,
    N + 2,
    'Something stands after the closing',
  ],
  [
    'splice: another case’s header',
    () => record.with(0, other.header),
    1,
    null,
    'The header was changed',
  ],
  [
    'replay: the head of an earlier export',
    async () => [
      header,
      ...entries.slice(0, 6),
      await checkpoint(keys, { n: 4, digest: digest(entries[3]), at: 0 }, WALL),
      ...entries.slice(6),
    ],
    8,
    null,
    'The checkpoint was signed after entry 4 and stands after entry 6: it is an older one',
  ],
  [
    'replay: the closing on a shorter record',
    () => [...record.slice(0, 6), closing],
    7,
    6,
    'Entry 6 is missing',
  ],
  [
    'header: another software',
    () => edited(0, { software: 'another' }),
    1,
    null,
    'The header was changed',
  ],
  [
    'header: another plan, its digest made to fit',
    () => {
      const plan = { ...header.plan, reference: 'x' };
      return edited(0, { plan, planDigest: digest(plan) });
    },
    1,
    null,
    'The header was changed',
  ],
  [
    'header: another plan',
    () => edited(0, { plan: { ...header.plan, reference: 'x' } }),
    1,
    null,
    'not the one its digest was made of',
  ],
  [
    'header: no longer marked as invented',
    () => edited(0, { invented: false }),
    1,
    null,
    'The header was changed',
  ],
  [
    'keys: another key’s name on the signature',
    async () => edited(N + 1, { publicKey: (await close(foreign, head, WALL)).publicKey }),
    N + 2,
    null,
    'its signature does not fit',
  ],
  [
    'keys: another key’s signature',
    async () => edited(N + 1, { signature: (await close(foreign, head, WALL)).signature }),
    N + 2,
    null,
    'its signature does not fit',
  ],
  [
    'seal: a later time',
    () => edited(N + 1, { wall: LATER }),
    N + 2,
    null,
    'its signature does not fit',
  ],
  [
    'seal: a checkpoint passed off as a closing',
    async () => [
      ...record.slice(0, -1),
      { ...(await checkpoint(keys, head, WALL)), kind: 'closing' },
    ],
    N + 2,
    null,
    'its signature does not fit',
  ],
  [
    'seal: one on the other',
    async () => [
      ...record,
      await checkpoint(keys, { ...head, n: N + 1, digest: digest(closing) }, WALL),
    ],
    N + 3,
    N + 2,
    'Something stands after the closing',
  ],
];

describe('every kind of tampering is found, and where', () => {
  it.each(CASES)('%s', async (_, make, line, entry, message) => {
    const verdict = await verdictOf(await make());
    expect(verdict).toMatchObject({ ok: false, line, entry });
    expect(verdict).toHaveProperty('message', expect.stringContaining(message));
  });
});

/** The value with one of its leaves changed, drawn by `pick`; null where there is none. */
function leafChanged(value: unknown, pick: number): unknown {
  const paths: (readonly string[])[] = [];
  const walk = (at: unknown, path: readonly string[]): void => {
    if (typeof at === 'object' && at !== null && Object.keys(at).length > 0)
      for (const [key, item] of Object.entries(at)) walk(item, [...path, key]);
    else paths.push(path);
  };
  walk(value, []);
  const path = paths[pick % paths.length] ?? [];
  const change = (at: unknown, rest: readonly string[]): unknown => {
    const [key, ...deeper] = rest;
    if (key === undefined) return another(at);
    if (typeof at !== 'object' || at === null) return at;
    if (Array.isArray(at))
      return at.map((item: unknown, i) => (String(i) === key ? change(item, deeper) : item));
    return { ...at, [key]: change(Reflect.get(at, key), deeper) };
  };
  return change(value, path);
}

/** Another value of the same kind, as somebody who knows the format would put it. */
function another(leaf: unknown): unknown {
  if (typeof leaf === 'number') return leaf + 1;
  if (typeof leaf === 'boolean') return !leaf;
  if (typeof leaf !== 'string') return leaf === null ? 'x' : null;
  if (/^\d{4}-/.test(leaf))
    return leaf.replace(/\d(?=Z?$)/, (digit) => (digit === '1' ? '2' : '1'));
  if (/^[0-9a-f]{64}$/.test(leaf))
    return leaf.replace(/^./, (digit) => (digit === 'a' ? 'b' : 'a'));
  return `${leaf}x`;
}

describe('what a person who knows the format would try', () => {
  it(
    `${RUNS} changes of one member anywhere, spelled as it should be: each found in its line`,
    async () => {
      await fc.assert(
        fc.asyncProperty(fc.nat(N + 1), fc.nat(), async (i, pick) => {
          const changed = leafChanged(record[i], pick);
          expect(canonical(changed)).not.toEqual(canonical(record[i]));
          const verdict = await verdictOf(record.with(i, changed));
          expect(verdict).toMatchObject({ ok: false, line: i + 1 });
        }),
        { numRuns: RUNS },
      );
    },
    BUSY_MS,
  );

  it('a whole record sealed anew by another key holds, and that key’s fingerprint tells', async () => {
    const forged = await close(foreign, head, WALL);
    expect(await verdictOf([header, ...entries, forged])).toMatchObject({ ok: true });
    expect(await fingerprint(forged)).not.toEqual(await fingerprint(closing));
  });

  it('a record without its seal, cut at a line end, is told by the head it should have', async () => {
    for (let k = 0; k < N; k += 1) {
      expect(await verdictOf([header, ...entries.slice(0, k)], head)).toMatchObject({
        ok: false,
        line: k + 2,
        entry: k + 1,
      });
    }
  });
});
