import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { deleteCase, exportLedger, readLedger } from '../../assistant/store/deletion.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { checkTombstone } from '../../assistant/store/signing.ts';
import { importCase } from '../../assistant/store/transfer.ts';
import { toTrouble } from '../../assistant/store/trouble.ts';
import {
  caseIdOf,
  parseJsonLines,
  toJsonLines,
  Tombstone,
  verifyLedger,
} from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const WALL = '2036-02-03T09:15:00.000Z';
let ledger: Tombstone[] = [];

beforeAll(async () => {
  const store = new MemoryStore();
  for (const reference of ['a', 'b', 'c']) {
    const { header, entries } = sampleRecord(3, reference);
    await store.putRecord(header, entries);
    await deleteCase(store, caseIdOf(header), 'retention-over', WALL);
  }
  ledger = (await store.tombstones()).map((line) => Tombstone.parse(line));
});

const verdictOf = (lines: readonly unknown[]) => verifyLedger(lines, checkTombstone);

describe('the ledger of deletions', () => {
  it('verifies as it was written, and says nothing that names the case', async () => {
    expect(await verdictOf(ledger)).toEqual({ tombstones: ledger, fault: null });
    const { header } = sampleRecord(3, 'a');
    expect(ledger[0]).toMatchObject({ n: 1, entries: 3, closed: false, caseId: caseIdOf(header) });
    expect(JSON.stringify(ledger)).not.toContain('"a"');
  });

  it('shows any change, and where: dropped, moved, put in, edited', async () => {
    const [one, two, three] = ledger;
    const at = async (lines: readonly unknown[]) => (await verdictOf(lines)).fault?.n;
    expect(await at([two, three])).toBe(1);
    expect(await at([one, three])).toBe(2);
    expect(await at([two, one, three])).toBe(1);
    expect(await at([one, one, two, three])).toBe(2);
    expect(await at([one, { ...two, reason: 'demo' }, three])).toBe(2);
    expect(await at([one, { ...two, entries: 2 }, three])).toBe(2);
    expect(await at([one, two, { ...three, signature: two?.signature }])).toBe(3);
    expect(await at([one, 7])).toBe(2);
    // What was cut off at its end can't show: that is what the exported copy is for.
    expect(await at([one, two])).toBeUndefined();
  });

  it('shows any one character changed in its file', async () => {
    const text = toJsonLines(ledger);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(text.length - 1),
        fc.constantFrom('0', 'z', '"', ' '),
        async (i, to) => {
          fc.pre(text[i] !== to);
          const { lines, problem } = parseJsonLines(`${text.slice(0, i)}${to}${text.slice(i + 1)}`);
          const { fault } = await verdictOf(lines.map(({ value }) => value));
          expect(problem !== null || fault !== null).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('takes no further tombstone on top of a fault', async () => {
    const store = new MemoryStore();
    const { header, entries } = sampleRecord(3, 'd');
    await store.putRecord(header, entries);
    store.tombstones = async () => [ledger[1]];
    await expect(deleteCase(store, caseIdOf(header), 'demo', WALL)).rejects.toThrow(
      'Nothing was deleted: the list of deletions does not hold. Deletion 1 does not follow',
    );
    expect(await store.lines(caseIdOf(header))).toHaveLength(4);
  });

  it('says that nothing was deleted where the disk is too full for it', async () => {
    const store = new MemoryStore();
    const { header, entries } = sampleRecord(3, 'd');
    await store.putRecord(header, entries);
    store.deleteCase = async () => {
      throw toTrouble(new DOMException('', 'QuotaExceededError'));
    };
    await expect(deleteCase(store, caseIdOf(header), 'demo', WALL)).rejects.toMatchObject({
      kind: 'full',
      message:
        'Nothing was deleted: the storage is full even for the note that stays of a deletion. Make room on this machine’s disk, then try again.',
    });
  });

  it('goes out as a file, and keeps a deleted record from coming back in', async () => {
    const store = new MemoryStore();
    const { header, entries } = sampleRecord(3, 'e');
    const file = new TextEncoder().encode(toJsonLines([header, ...entries]));
    expect(await importCase(store, file)).toMatchObject({ kind: 'new' });
    await deleteCase(store, caseIdOf(header), 'made-in-error', WALL);
    expect(await importCase(store, file)).toEqual({
      kind: 'refused',
      line: null,
      entry: null,
      message:
        'This very record was deleted here on 2036-02-03 (deletion 1): it is not taken back in.',
    });
    const { name, text } = await exportLedger(store, WALL);
    expect(name).toBe('seatcall-deletions-2036-02-03.jsonl');
    expect(parseJsonLines(text).lines.map(({ value }) => value)).toEqual(
      (await readLedger(store)).tombstones,
    );
  });
});
