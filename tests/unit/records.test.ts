import { describe, expect, it } from 'vitest';
import { checkBytes, keepingOf, recordOf } from '../../assistant/app/records.ts';
import { deleteCase } from '../../assistant/store/deletion.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { close, fingerprintOf, makeKey } from '../../assistant/store/signing.ts';
import { exportCase } from '../../assistant/store/transfer.ts';
import { caseIdOf, toJsonLines } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const WALL = '2026-02-03T09:15:00.000Z';
const { header, entries, head } = sampleRecord(4);
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('the record page', () => {
  it('tells how long a record has to be kept, and that another of its reference was deleted', async () => {
    const store = new MemoryStore();
    await store.putRecord(header, entries);
    await deleteCase(store, caseIdOf(header), 'made-in-error', WALL);
    const again = { ...header, opened: '2026-02-03T10:00:00.000Z' };
    await store.putRecord(again, []);
    const record = await recordOf(store, caseIdOf(again), 10);
    expect(record).toMatchObject({
      keptUntil: '2036-02-03',
      chain: { kind: 'whole', signed: false },
      fingerprint: null,
      deletedBefore: [{ n: 1, wall: WALL, reason: 'made-in-error', entries: 4 }],
    });
    const { header: other } = sampleRecord(1, 'invented-2');
    await store.putRecord(other, []);
    expect(await recordOf(store, caseIdOf(other), null)).toMatchObject({
      keptUntil: null,
      deletedBefore: [],
    });
    const { past, fault } = await keepingOf(store, 10, '2036-02-04T00:00:00.000Z');
    expect(new Set(past)).toEqual(new Set([caseIdOf(again), caseIdOf(other)]));
    expect(fault).toBeNull();
    expect(await keepingOf(store, 10, '2036-02-03T00:00:00.000Z')).toMatchObject({ past: [] });
  });
});

describe('a file that is checked', () => {
  it('closed by another key, going on under this browser’s own, or not signed', async () => {
    const store = new MemoryStore();
    const foreign = await close(await makeKey(), head, WALL);
    const closed = toJsonLines([header, ...entries, foreign]);
    expect(await checkBytes(store, 'a', bytesOf(closed))).toMatchObject({
      chain: { kind: 'whole', signed: true },
      seal: 'closing',
      own: false,
      line: null,
    });
    await store.putRecord(header, entries);
    const { text } = await exportCase(store, caseIdOf(header), WALL);
    expect(await checkBytes(store, 'b', bytesOf(text))).toMatchObject({
      chain: { kind: 'whole', signed: true },
      seal: 'checkpoint',
      own: true,
      fingerprint: await fingerprintOf(await store.signingKeys()),
    });
    const bare = toJsonLines([header, ...entries]);
    expect(await checkBytes(store, 'c', bytesOf(bare))).toMatchObject({
      chain: { kind: 'whole', signed: false },
      seal: null,
      own: false,
    });
  });

  it('with a fault: its line and entry, and what before it is whole', async () => {
    const store = new MemoryStore();
    const lines: unknown[] = [header, ...entries];
    lines[3] = { ...entries[2], tooth: '47' };
    expect(await checkBytes(store, 'd', bytesOf(toJsonLines(lines)))).toMatchObject({
      chain: { kind: 'broken', entry: 3 },
      line: 4,
      entries: entries.slice(0, 2),
      seal: null,
    });
    expect(await store.listCases()).toEqual([]);
  });
});
