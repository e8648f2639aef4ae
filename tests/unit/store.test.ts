import { describe, expect, it } from 'vitest';
import { FallbackStore } from '../../assistant/store/fallback.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { readSettings } from '../../assistant/store/settings.ts';
import { close } from '../../assistant/store/signing.ts';
import type { CaseWriter, Store } from '../../assistant/store/store.ts';
import { type StoreTrouble, toTrouble } from '../../assistant/store/trouble.ts';
import { caseIdOf } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';
import { STORE_CASES } from '../store-suite.ts';
import { TRANSFER_CASES } from '../transfer-suite.ts';

const CASES = [...STORE_CASES, ...TRANSFER_CASES];

describe('the store in memory', () => {
  it.each(CASES)('$name', async ({ observe, expected }) => {
    const store = new MemoryStore();
    expect(await observe(() => Promise.resolve(store))).toEqual(expected);
  });
});

describe('the store with no disk under it', () => {
  it.each(CASES)('$name', async ({ observe, expected }) => {
    const store = new FallbackStore(null, () => expect.unreachable('nothing to warn of'));
    expect(await observe(() => Promise.resolve(store))).toEqual(expected);
  });
});

describe('the store over a disk that works', () => {
  it.each(CASES)('$name', async ({ observe, expected }) => {
    const disk = new MemoryStore();
    const open = () =>
      Promise.resolve(new FallbackStore(disk, () => expect.unreachable('nothing to warn of')));
    expect(await observe(open)).toEqual(expected);
  });
});

/** A disk that takes `room` more lines and then is full; what it holds stays readable. */
class SmallDisk extends MemoryStore {
  #room: number;

  constructor(room: number) {
    super();
    this.#room = room;
  }

  override async openCase(...args: Parameters<Store['openCase']>): Promise<CaseWriter> {
    return this.#narrow(await super.openCase(...args));
  }

  #narrow(writer: CaseWriter): CaseWriter {
    return {
      ...writer,
      keeping: 'disk',
      append: async (line) => {
        if (this.#room <= 0) throw toTrouble(new DOMException('', 'QuotaExceededError'));
        this.#room -= 1;
        await writer.append(line);
      },
    };
  }
}

describe('a disk that is full in the middle of a case', () => {
  const { header, entries, head } = sampleRecord(6);
  const caseId = caseIdOf(header);

  it.each([0, 1, 3, 5])(
    'after %i lines: the case goes on in memory, whole, and says so',
    async (room) => {
      const disk = new SmallDisk(room);
      const warnings: StoreTrouble[] = [];
      const store = new FallbackStore(disk, (trouble) => warnings.push(trouble));
      const writer = await store.openCase(header);
      expect(writer.keeping).toBe('disk');
      await Promise.all(entries.map((entry) => writer.append(entry)));
      const closing = await close(await store.signingKeys(), head, '2026-02-03T09:15:00.000Z');
      await writer.append(closing);
      expect(writer.keeping).toBe('memory');
      expect(warnings.map(({ kind, message }) => ({ kind, message }))).toEqual([
        {
          kind: 'full',
          message:
            'The storage is full: nothing more can be kept on this machine. This is kept only as long as this tab is open: export the case before closing it.',
        },
      ]);
      expect(await store.lines(caseId)).toEqual([header, ...entries, closing]);
      expect(await disk.lines(caseId)).toEqual([header, ...entries.slice(0, room)]);
      expect((await store.listCases()).map((kase) => [kase.entries, kase.closed])).toEqual([
        [6, true],
      ]);
      writer.release();
      await expect(store.resumeCase(caseId)).resolves.toHaveProperty('keeping', 'memory');
    },
  );

  it('does not take a refusal for a full disk', async () => {
    const store = new FallbackStore(new SmallDisk(9), () =>
      expect.unreachable('nothing to warn of'),
    );
    const writer = await store.openCase(header);
    const [, second] = entries;
    if (second === undefined) throw new Error('the sample is too short');
    await expect(writer.append(second)).rejects.toMatchObject({ kind: 'out-of-order' });
    expect(writer.keeping).toBe('disk');
  });
});

describe('a record that was changed on the disk', () => {
  it('is not taken up, and the reason is given', async () => {
    const { header, entries } = sampleRecord(3);
    const caseId = caseIdOf(header);
    const disk = new MemoryStore();
    await disk.putRecord(header, entries);
    disk.lines = async () => [header, entries[0], { ...entries[1], tooth: null }, entries[2]];
    const store = new FallbackStore(disk, () => expect.unreachable('nothing to warn of'));
    await expect(store.resumeCase(caseId)).rejects.toThrow(
      'The record on this machine was changed. Entry 2 was changed',
    );
    // The lock it took to look is given back.
    await expect(disk.resumeCase(caseId)).resolves.toHaveProperty('caseId', caseId);
  });
});

describe('trouble', () => {
  it.each([
    ['QuotaExceededError', 'full'],
    ['ConstraintError', 'exists'],
    ['SecurityError', 'unavailable'],
    ['InvalidStateError', 'unavailable'],
    ['UnknownError', 'broken'],
  ])('%s is %s', (name, kind) => {
    const error = new DOMException('inside', name);
    const trouble = toTrouble(error);
    expect([trouble.kind, trouble.cause]).toEqual([kind, error]);
    expect(toTrouble(trouble)).toBe(trouble);
  });
});

describe('settings', () => {
  it('go back to their defaults one by one when they are unfit', () => {
    const kept = { callSign: 'Two Words', volume: 0.25, shelf: 3, later: 'x' };
    expect(readSettings(kept)).toEqual({
      settings: {
        callSign: null,
        volume: 0.25,
        followUpS: 8,
        microphone: null,
        pedalKey: null,
        letterKeys: true,
        retentionYears: null,
        ownPhrases: [],
        wakeWord: null,
        shelf: null,
      },
      dropped: ['callSign', 'shelf'],
    });
    // Kept before a microphone could be chosen, and with one that names nothing.
    expect(readSettings({ volume: 0.25 })).toMatchObject({
      settings: { volume: 0.25, microphone: null },
      dropped: [],
    });
    expect(readSettings({ microphone: { id: '', label: 'Headset' } })).toMatchObject({
      settings: { microphone: null },
      dropped: ['microphone'],
    });
    expect(readSettings('junk')).toMatchObject({ settings: { volume: 0.8 }, dropped: ['all'] });
  });
});
