/** What runs inside the browser for the store's end-to-end tests: the real store, and hands on it. */
import { deleteCase, readLedger } from '../../../assistant/store/deletion.ts';
import { openIndexedDb } from '../../../assistant/store/indexed-db.ts';
import { openStore } from '../../../assistant/store/open.ts';
import type { CaseWriter, Store } from '../../../assistant/store/store.ts';
import { download, exportCase } from '../../../assistant/store/transfer.ts';
import { StoreTrouble } from '../../../assistant/store/trouble.ts';
import { append, caseIdOf, headAfter, openRecord, verify } from '../../../machines/record/index.ts';
import type { Head } from '../../../machines/record/index.ts';
import { sampleEntry, sampleHeader, sampleStamp } from '../../record-maker.ts';
import { STORE_CASES } from '../../store-suite.ts';
import { TRANSFER_CASES } from '../../transfer-suite.ts';

const header = sampleHeader();
const caseId = caseIdOf(header);
let store: Store | undefined;
let writer: CaseWriter | undefined;
let head: Head = openRecord(header);
const warnings: string[] = [];

/** What went wrong, as the app would see it. */
async function told(work: () => Promise<void>): Promise<{ kind: string; message: string } | null> {
  try {
    await work();
    return null;
  } catch (error) {
    if (error instanceof StoreTrouble) return { kind: error.kind, message: error.message };
    return { kind: 'not a StoreTrouble', message: String(error) };
  }
}

export const hands = {
  /** One case of the suites over a database of its own. */
  observe(name: string): Promise<unknown> {
    const found = [...STORE_CASES, ...TRANSFER_CASES].find((kase) => kase.name === name);
    if (found === undefined) throw new Error(`no case ${name}`);
    return found.observe(() => openIndexedDb(`suite ${name}`));
  },

  /** Opens the app's store, with or without memory behind it, and the case in it. */
  take(how: 'app' | 'disk'): Promise<{ kind: string; message: string } | null> {
    return told(async () => {
      store ??= await (how === 'disk'
        ? openIndexedDb()
        : openStore(({ message }) => warnings.push(message)));
      const known = (await store.listCases()).some((kase) => kase.caseId === caseId);
      writer = await (known ? store.resumeCase(caseId) : store.openCase(header));
      const verdict = verify(await store.lines(caseId));
      if (!verdict.ok) throw new Error(verdict.message);
      head = verdict.head;
    });
  },

  /** Writes sample entries; the number of the last one that was acknowledged. */
  async write(count: number): Promise<number> {
    for (let i = 0; i < count; i += 1) {
      const entry = sampleEntry(head);
      await writer?.append(entry);
      head = headAfter(entry);
    }
    return head.n;
  },

  /** Writes entries without end; each acknowledged number is told to the test. */
  async writeOn(acknowledged: (n: number) => Promise<void>): Promise<never> {
    for (;;) await acknowledged(await hands.write(1));
  },

  /** Writes long notes until the store has trouble, or `most` are kept. */
  fill(most: number): Promise<{ kind: string; message: string } | null> {
    return told(async () => {
      for (let i = 0; i < most; i += 1) {
        const entry = append(head, {
          stamp: sampleStamp(i, head.at),
          tooth: null,
          step: null,
          command: { type: 'note', text: `${i} `.repeat(100).trim().slice(0, 500) },
          outcome: { kind: 'accepted', deviation: null },
        });
        await writer?.append(entry);
        head = headAfter(entry);
      }
    });
  },

  /** Takes the database away while the store is open, as clearing the site's data would. */
  async clear(): Promise<void> {
    await new Promise((done) => {
      indexedDB.deleteDatabase('seatcall').addEventListener('success', done);
    });
  },

  /** Leaves the app's database as the first version made it, with `count` entries of the case in it. */
  async leaveOld(count: number): Promise<void> {
    const opening = indexedDB.open('seatcall', 1);
    opening.addEventListener('upgradeneeded', () => {
      const db = opening.result;
      db.createObjectStore('records', { keyPath: 'caseId' });
      db.createObjectStore('entries', { keyPath: ['caseId', 'n'] });
      db.createObjectStore('cases', { keyPath: 'reference' });
      db.createObjectStore('settings');
      db.createObjectStore('keys');
    });
    await new Promise((done) => opening.addEventListener('success', done));
    const tx = opening.result.transaction(['records', 'entries'], 'readwrite');
    tx.objectStore('records').add({ caseId, header });
    let last = openRecord(header);
    for (let i = 0; i < count; i += 1) {
      const entry = sampleEntry(last);
      tx.objectStore('entries').add({ caseId, n: entry.n, line: entry });
      last = headAfter(entry);
    }
    await new Promise((done) => tx.addEventListener('complete', done));
    opening.result.close();
  },

  /** Makes the signing keys, which a case under way has long had. */
  async makeKeys(): Promise<void> {
    await store?.signingKeys();
  },

  /** Deletes the case; what went wrong, or null. */
  remove(): Promise<{ kind: string; message: string } | null> {
    return told(async () => {
      store ??= await openStore(({ message }) => warnings.push(message));
      writer?.release();
      await deleteCase(store, caseId, 'demo', '2026-02-03T09:15:00.000Z');
    });
  },

  /** Cases and deletions that are kept. */
  async count(): Promise<readonly [cases: number, deletions: number]> {
    store ??= await openStore(({ message }) => warnings.push(message));
    return [(await store.listCases()).length, (await readLedger(store)).tombstones.length];
  },

  /** What is kept, as a verdict; memory's warnings with it. */
  async look() {
    const verdict = verify((await store?.lines(caseId)) ?? []);
    const n = verdict.ok ? verdict.head.n : verdict.message;
    return { ok: verdict.ok, n, head: head.n, keeping: writer?.keeping ?? null, warnings };
  },

  /** Hands the case to the person as a file. */
  async save(): Promise<void> {
    if (store !== undefined) download(await exportCase(store, caseId, '2026-02-03T09:15:00.000Z'));
  },
};

declare global {
  interface Window {
    hands: typeof hands;
    acknowledge: (n: number) => Promise<void>;
  }
}
window.hands = hands;
