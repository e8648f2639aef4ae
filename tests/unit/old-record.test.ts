import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { FallbackStore } from '../../assistant/store/fallback.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { checkSignature } from '../../assistant/store/signing.ts';
import { exportCase, importCase } from '../../assistant/store/transfer.ts';
import { withMeantSteps } from '../../machines/conduct/index.ts';
import { Entry } from '../../machines/contract/index.ts';
import { toFhir } from '../../machines/export/index.ts';
import {
  append,
  toJsonLines,
  type Verified,
  verifySealed,
  verifyText,
} from '../../machines/record/index.ts';

/**
 * A record that version 0.1.0 wrote: an invented appointment. Since then plans and entries have
 * got members that have a default. A record must outlive the program that wrote it.
 */
const file = readFileSync(new URL('../data/record-0.1.0.jsonl', import.meta.url));
const text = file.toString('utf8');
let old: Verified;

beforeAll(async () => {
  const verdict = await verifySealed(file, checkSignature);
  if (!verdict.ok) throw new Error(verdict.message);
  old = verdict;
});

describe('a record of version 0.1.0', () => {
  it('holds, and reads with what has been added since', () => {
    expect(old.entries).toHaveLength(68);
    expect(old.entries[0]).toHaveProperty('step', null);
    expect(old.written.lines[0]).not.toHaveProperty('step');
    expect(text).not.toContain('"step":null,"tooth"');
    expect(`${text.split('\n')[0]}\n`).toEqual(toJsonLines([old.written.header]));
  });

  it('is told by its commands what each was taken to mean, as if it had said so', () => {
    const entries = withMeantSteps(old);
    expect(entries.map((entry) => ({ ...entry, step: null }))).toEqual(old.entries);
    expect(entries.slice(0, 8).map(({ step }) => step)).toEqual([
      'case-check',
      'history',
      'equipment',
      'disinfect',
      'shade-photo',
      'shade-photo',
      'shade-photo',
      'airway',
    ]);
    expect(entries.flatMap(({ step }) => step ?? [])).toContain('seat');
    // A record that says it is left alone.
    const saying = { ...old, written: { lines: old.entries } };
    expect(withMeantSteps(saying)).toBe(old.entries);
  });

  it('is refused where it was changed, like any other', () => {
    const lines = text.split('\n');
    const changed = lines.with(9, (lines[9] ?? '').replace('"via":"voice"', '"via":"typed"'));
    expect(changed).not.toEqual(lines);
    expect(verifyText(changed.join('\n'))).toMatchObject({ ok: false, entry: 9 });
    // What has a default is not to be written into it either.
    const added = lines.with(9, (lines[9] ?? '').replace('},"tooth"', '},"step":null,"tooth"'));
    expect(added).not.toEqual(lines);
    expect(verifyText(added.join('\n'))).toMatchObject({ ok: false, entry: 9 });
  });

  it('is taken in and given out again to the byte', async () => {
    const store = new MemoryStore();
    expect(await importCase(store, file)).toEqual({
      kind: 'new',
      caseId: old.caseId,
      sealed: true,
    });
    expect((await exportCase(store, old.caseId, '2026-02-04T09:00:00.000Z')).text).toBe(text);
    expect(await importCase(store, file)).toMatchObject({ kind: 'same' });
    expect((await store.listCases()).map(({ caseId, entries }) => [caseId, entries])).toEqual([
      [old.caseId, 68],
    ]);
  });

  it('that was not closed is gone on with, on a disk that fills up too', async () => {
    const { header, lines } = old.written;
    const disk = new MemoryStore();
    await disk.putRecord(header, lines.slice(0, 5));
    const store = new FallbackStore(disk, () => expect.unreachable('nothing to warn of'));
    const writer = await store.resumeCase(old.caseId);
    const verdict = verifyText(toJsonLines(await store.lines(old.caseId)));
    if (!verdict.ok) throw new Error(verdict.message);
    const [next] = old.entries;
    const entry = append(verdict.head, {
      stamp: { ...(next ?? Entry.parse(null)).stamp, at: verdict.head.at },
      tooth: null,
      step: null,
      command: { type: 'next' },
      outcome: { kind: 'asked' },
    });
    await writer.append(entry);
    expect(verifyText(toJsonLines(await store.lines(old.caseId)))).toMatchObject({
      ok: true,
      head: { n: 6 },
    });
  });

  it('goes out as FHIR by the name its header has', () => {
    const bundle = toFhir(old);
    expect(JSON.stringify(bundle)).toContain('ni:///sha-256;');
    expect(bundle.entry.length).toBeGreaterThan(40);
  });
});
