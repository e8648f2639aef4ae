import { beforeAll, describe, expect, it } from 'vitest';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { close } from '../../assistant/store/signing.ts';
import { importCase } from '../../assistant/store/transfer.ts';
import { toJsonLines, verifyText } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const { header, entries, head } = sampleRecord(3);
let file = new Uint8Array();

beforeAll(async () => {
  const keys = await new MemoryStore().signingKeys();
  const closing = await close(keys, head, '2026-02-03T09:15:00.000Z');
  file = new TextEncoder().encode(toJsonLines([header, ...entries, closing]));
});

describe('an export that was broken off, at any byte', () => {
  it('is refused with its last whole entry, and nothing of it is kept; at a line end it is a shorter record without a seal', async () => {
    const ends = [...file.keys()].filter((i) => file[i] === 10);
    const store = new MemoryStore();
    for (let cut = 0; cut < file.length; cut += 1) {
      const part = file.subarray(0, cut);
      const whole = ends.filter((end) => end < cut).length;
      const atLineEnd = ends.includes(cut - 1);
      const verdict = verifyText(part);
      const kept = verdict.ok ? verdict.entries : verdict.intact.entries;
      const due = entries.slice(0, Math.max(0, Math.min(whole - 1, entries.length)));
      expect({ cut, n: kept.length }).toEqual({ cut, n: due.length });
      expect({ cut, ok: verdict.ok }).toEqual({ cut, ok: atLineEnd });
      // Every cut is verified; a few of them, those beside line ends among them, are taken in too.
      if (!atLineEnd && !ends.includes(cut) && cut % 97 !== 0) continue;
      const imported = await importCase(store, part);
      const refused = imported.kind === 'refused' || imported.kind === 'cut';
      // Where whole entries are left, they are offered.
      expect({ cut, offered: imported.kind === 'cut' ? imported.after : 0 }).toEqual({
        cut,
        offered: atLineEnd ? 0 : due.length,
      });
      expect({ cut, refused, line: refused ? imported.line : null }).toEqual({
        cut,
        refused: !atLineEnd,
        line: atLineEnd ? null : whole + 1,
      });
      const said = refused ? imported.message : 'a shorter record';
      expect(said).toMatch(/The file is empty|no line end: the file was cut off|a shorter record/);
    }
    // What came in are the cuts at line ends, one after the other, each newer than the one before.
    expect((await store.listCases()).map((one) => [one.entries, one.closed])).toEqual([[3, false]]);
  });

  it('that was to replace one that is here changes nothing of it', async () => {
    const store = new MemoryStore();
    await importCase(store, file);
    const before = JSON.stringify(await store.lines((await store.listCases())[0]?.caseId ?? ''));
    const last = file.lastIndexOf(10, -2) + 1;
    expect(await importCase(store, file.subarray(0, last))).toMatchObject({ kind: 'older' });
    expect(await importCase(store, file.subarray(0, last + 9))).toMatchObject({ kind: 'cut' });
    const after = JSON.stringify(await store.lines((await store.listCases())[0]?.caseId ?? ''));
    expect(after).toEqual(before);
  });
});
