/**
 * What every store must do, whatever is under it. Each case observes plain data that the runner
 * holds against `expected`, so that the same cases run in Node and in a browser's page.
 */
import { deleteCase, deletionsOf, readLedger } from '../assistant/store/deletion.ts';
import { bury, checkSignature, close } from '../assistant/store/signing.ts';
import type { Store } from '../assistant/store/store.ts';
import { StoreTrouble } from '../assistant/store/trouble.ts';
import {
  caseIdOf,
  digest,
  NO_TOMBSTONE,
  referenceDigest,
  verify,
} from '../machines/record/index.ts';
import { sampleEntry, sampleHeader, sampleRecord } from './record-maker.ts';

/** Opens the store of this one case; again, as after a reload: what was kept is still there. */
export type OpenStore = () => Promise<Store>;

export interface StoreCase {
  readonly name: string;
  readonly expected: unknown;
  readonly observe: (open: OpenStore) => Promise<unknown>;
}

const WALL = '2026-02-03T09:15:00.000Z';

/** The kind of trouble that `work` runs into; 'none' if it doesn't. */
async function troubleOf(work: Promise<unknown>): Promise<string> {
  try {
    await work;
    return 'none';
  } catch (error) {
    return error instanceof StoreTrouble ? error.kind : String(error);
  }
}

const { header, entries, head } = sampleRecord(4);
const caseId = caseIdOf(header);
const [first, second, third, fourth] = entries;
if (!first || !second || !third || !fourth) throw new Error('the sample has four entries');

export const STORE_CASES: readonly StoreCase[] = [
  {
    name: 'keeps lines in order, and over a reload',
    expected: [true, 4, head.digest, 'in-order'],
    async observe(open) {
      const store = await open();
      const writer = await store.openCase(header);
      // Not awaited one by one: they still go in order.
      await Promise.all(entries.map((entry) => writer.append(entry)));
      writer.release();
      store.close();
      const again = await open();
      const verdict = verify(await again.lines(caseId));
      const same =
        JSON.stringify(await again.lines(caseId)) === JSON.stringify([header, ...entries]);
      again.close();
      return verdict.ok
        ? [true, verdict.head.n, verdict.head.digest, same ? 'in-order' : 'changed']
        : verdict;
    },
  },
  {
    name: 'lists cases, the last opened first, and those that are not finished',
    expected: [
      [
        [2, false, ['46'], '2026-02-03T09:00:00.250Z'],
        [4, true, ['46'], WALL],
      ],
      ['invented-2'],
    ],
    async observe(open) {
      const store = await open();
      const later = { ...sampleHeader('invented-2'), opened: '2026-02-03T09:00:00.001Z' };
      const a = await store.openCase(header);
      for (const entry of entries) await a.append(entry);
      await a.append(await close(await store.signingKeys(), head, WALL));
      const b = await store.openCase(later);
      const one = sampleEntry({ n: 0, digest: caseIdOf(later), at: 0 }, 0);
      await b.append(one);
      await b.append(sampleEntry({ n: 1, digest: digest(one), at: 0 }, 1));
      const all = await store.listCases();
      const going = await store.unfinished();
      store.close();
      return [
        all.map((kase) => [kase.entries, kase.closed, kase.teeth, kase.lastWall]),
        going.map(({ reference }) => reference),
      ];
    },
  },
  {
    name: 'never writes over, takes nothing out of order and nothing after the closing',
    expected: ['out-of-order', 'out-of-order', 'out-of-order', 'out-of-order', 'closed', 6],
    async observe(open) {
      const store = await open();
      const writer = await store.openCase(header);
      const early = await troubleOf(writer.append(second));
      await writer.append(first);
      const twice = await troubleOf(writer.append(first));
      const over = await troubleOf(writer.append({ ...first, tooth: null }));
      await writer.append(second);
      const forged = await troubleOf(writer.append({ ...third, prev: first.prev }));
      await writer.append(third);
      await writer.append(fourth);
      await writer.append(await close(await store.signingKeys(), head, WALL));
      const after = await troubleOf(writer.append(sampleEntry(head)));
      const kept = await store.lines(caseId);
      store.close();
      return [early, twice, over, forged, after, kept.length];
    },
  },
  {
    name: 'lets one writer at a case, and the next when it is released',
    expected: ['elsewhere', 'none', 'elsewhere', 'none', 3],
    async observe(open) {
      const store = await open();
      const tab = await open();
      const writer = await store.openCase(header);
      await writer.append(first);
      const refused = await troubleOf(tab.resumeCase(caseId));
      writer.release();
      const next = await tab.resumeCase(caseId);
      const wrote = await troubleOf(next.append(second));
      const late = await troubleOf(writer.append(third));
      next.release();
      const again = await store.resumeCase(caseId);
      again.release();
      const free = await troubleOf(tab.resumeCase(caseId));
      const kept = await tab.lines(caseId);
      store.close();
      return [refused, wrote, late, free, kept.length];
    },
  },
  {
    name: 'knows what is there and what is not',
    expected: ['exists', 'missing', 'missing', [], []],
    async observe(open) {
      const store = await open();
      const none = [await store.listCases(), await store.unfinished()];
      await store.openCase(header);
      const twice = await troubleOf(store.openCase(header));
      const resumed = await troubleOf(store.resumeCase('0'.repeat(64)));
      const lines = await troubleOf(store.lines('0'.repeat(64)));
      store.close();
      return [twice, resumed, lines, ...none];
    },
  },
  {
    name: 'keeps a whole record, or nothing of it',
    expected: ['out-of-order', 'missing', [], 'none', 5, 'exists'],
    async observe(open) {
      const store = await open();
      const bad = await troubleOf(store.putRecord(header, [first, second, fourth]));
      const after = await troubleOf(store.lines(caseId));
      const list = await store.listCases();
      const good = await troubleOf(store.putRecord(header, entries));
      const kept = await store.lines(caseId);
      const twice = await troubleOf(store.putRecord(header, []));
      store.close();
      return [bad, after, list, good, kept.length, twice];
    },
  },
  {
    name: 'deletes a whole record and keeps its tombstone, and takes it never in again',
    expected: [
      [
        [1, 4, true, 'retention-over'],
        [2, 0, false, 'asked-for'],
      ],
      null,
      [1, 1, 0],
      ['missing', 'deleted', 'missing', 'none'],
      ['invented-1'],
    ],
    async observe(open) {
      const store = await open();
      const other = sampleHeader('invented-2');
      const closing = await close(await store.signingKeys(), head, WALL);
      await store.putRecord(header, [...entries, closing]);
      await store.putRecord(other, []);
      await deleteCase(store, caseId, 'retention-over', WALL);
      await deleteCase(store, caseIdOf(other), 'asked-for', WALL);
      store.close();
      const again = await open();
      const ledger = await readLedger(again);
      const troubles = [
        await troubleOf(again.lines(caseId)),
        await troubleOf(again.putRecord(header, entries)),
        await troubleOf(deleteCase(again, caseId, 'demo', WALL)),
        // The same reference on another day is another record.
        await troubleOf(again.putRecord({ ...header, opened: '2026-02-04T09:00:00.000Z' }, [])),
      ];
      const cases = await again.listCases();
      again.close();
      return [
        ledger.tombstones.map((one) => [one.n, one.entries, one.closed, one.reason]),
        ledger.fault,
        ['invented-1', 'invented-2', 'invented-3'].map((one) => deletionsOf(ledger, one).length),
        troubles,
        cases.map(({ reference }) => reference),
      ];
    },
  },
  {
    name: 'deletes nothing that is being written, nor what a tombstone does not fit',
    expected: ['elsewhere', 'out-of-order', 'out-of-order', 'out-of-order', 3, 0, 'none', 1],
    async observe(open) {
      const store = await open();
      const writer = await store.openCase(header);
      await writer.append(first);
      const held = await troubleOf(deleteCase(store, caseId, 'demo', WALL));
      const facts = {
        n: 1,
        prev: NO_TOMBSTONE,
        caseId,
        reference: referenceDigest(caseId, header.case.reference),
        head: digest(first),
        entries: 1,
        closed: false,
        reason: 'demo',
        wall: WALL,
      } as const;
      const keys = await store.signingKeys();
      await writer.append(second);
      writer.release();
      const older = await troubleOf(store.deleteCase(await bury(keys, facts)));
      const now = { ...facts, head: digest(second), entries: 2 };
      const skipped = await troubleOf(store.deleteCase(await bury(keys, { ...now, n: 2 })));
      const shorter = await troubleOf(store.deleteCase(await bury(keys, { ...now, entries: 1 })));
      const { length } = await store.lines(caseId);
      const none = await store.tombstones();
      const fits = await troubleOf(store.deleteCase(await bury(keys, now)));
      const { length: one } = await store.tombstones();
      store.close();
      return [held, older, skipped, shorter, length, none.length, fits, one];
    },
  },
  {
    name: 'is not changed through what it was given or gave out',
    expected: true,
    async observe(open) {
      const store = await open();
      const given = structuredClone(header);
      await store.putRecord(given, []);
      given.case.reference = 'changed';
      const [out] = await store.lines(caseId);
      if (typeof out === 'object' && out !== null) Reflect.set(out, 'invented', false);
      const kept = JSON.stringify(await store.lines(caseId)) === JSON.stringify([header]);
      store.close();
      return kept;
    },
  },
  {
    name: 'keeps settings and prepared cases',
    expected: [
      {
        settings: {
          callSign: null,
          volume: 0.8,
          followUpS: 8,
          microphone: null,
          pedalKey: null,
          letterKeys: true,
          retentionYears: null,
          ownPhrases: [],
          wakeWord: null,
          shelf: null,
        },
        dropped: [],
      },
      {
        settings: {
          callSign: 'marigold',
          volume: 0.5,
          followUpS: 8,
          microphone: null,
          pedalKey: null,
          letterKeys: true,
          retentionYears: null,
          ownPhrases: [],
          wakeWord: null,
          shelf: null,
        },
        dropped: [],
      },
      [
        ['a', 23],
        ['b', 23],
      ],
      ['b'],
    ],
    async observe(open) {
      const store = await open();
      const before = await store.settings();
      await store.putSettings({ ...before.settings, callSign: 'marigold', volume: 0.5 });
      const facts = header.case;
      await store.prepareCase({ ...facts, reference: 'b', roomC: 30 });
      await store.prepareCase({ ...facts, reference: 'a' });
      await store.prepareCase({ ...facts, reference: 'b' });
      store.close();
      const again = await open();
      const prepared = await again.preparedCases();
      await again.dropPrepared('a');
      const rest = await again.preparedCases();
      const after = await again.settings();
      again.close();
      return [
        before,
        after,
        prepared.map(({ reference, roomC }) => [reference, roomC]),
        rest.map(({ reference }) => reference),
      ];
    },
  },
  {
    name: 'has one signing key, which cannot be read out',
    expected: [true, false, true],
    async observe(open) {
      const store = await open();
      const [a, b] = await Promise.all([store.signingKeys(), store.signingKeys()]);
      store.close();
      const again = await open();
      const kept = await again.signingKeys();
      const seals = await Promise.all([a, b, kept].map((keys) => close(keys, head, WALL)));
      again.close();
      const one = new Set(seals.map(({ publicKey }) => publicKey)).size === 1;
      const held = await Promise.all(seals.map(checkSignature));
      return [one, kept.privateKey.extractable, held.every(Boolean)];
    },
  },
];
