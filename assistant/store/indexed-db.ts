import { openDB } from 'idb';
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import type { CaseFile, HeaderLine } from '../../machines/contract/index.ts';
import { caseIdOf } from '../../machines/record/index.ts';
import type { Tombstone } from '../../machines/record/index.ts';
import { lockCase } from './locks.ts';
import { readSettings } from './settings.ts';
import type { Settings } from './settings.ts';
import { makeKey } from './signing.ts';
import {
  caseExists,
  isUnfinished,
  lastOpenedFirst,
  mustBury,
  mustFollow,
  mustNotBeBuried,
  noSuchCase,
  released,
  summarise,
} from './store.ts';
import type { CaseSummary, CaseWriter, Kept, Store } from './store.ts';
import { StoreTrouble, toTrouble } from './trouble.ts';

interface Row {
  readonly caseId: string;
  readonly n: number;
  readonly line: Kept;
}

interface RecordRow {
  readonly caseId: string;
  readonly header: HeaderLine;
  /** Its file was cut off after this entry. */
  readonly cutAfter?: number;
}

interface Schema extends DBSchema {
  records: { key: string; value: RecordRow };
  entries: { key: [string, number]; value: Row };
  cases: { key: string; value: CaseFile };
  settings: { key: string; value: Settings };
  keys: { key: string; value: CryptoKeyPair };
  tombstones: { key: number; value: Tombstone };
}
type Name = StoreNames<Schema>;
type Transaction<M extends IDBTransactionMode> = IDBPTransaction<Schema, Name[], M>;

/** 2: deletions. */
const VERSION = 2;
const ONE = 'this-browser';

/** Goes on from any older version; what is there stays as it is. */
function upgrade(db: IDBPDatabase<Schema>, from: number): void {
  if (from < 1) {
    db.createObjectStore('records', { keyPath: 'caseId' });
    db.createObjectStore('entries', { keyPath: ['caseId', 'n'] });
    db.createObjectStore('cases', { keyPath: 'reference' });
    db.createObjectStore('settings');
    db.createObjectStore('keys');
  }
  if (from < 2) db.createObjectStore('tombstones', { keyPath: 'n' });
}

const rowsOf = (caseId: string): IDBKeyRange =>
  IDBKeyRange.bound([caseId, 0], [caseId, Number.POSITIVE_INFINITY]);

async function lastLine(
  tx: Transaction<'readonly'> | Transaction<'readwrite'>,
  caseId: string,
): Promise<Kept | null> {
  const cursor = await tx.objectStore('entries').openCursor(rowsOf(caseId), 'prev');
  return cursor?.value.line ?? null;
}

function abort(tx: Transaction<'readwrite'>): void {
  try {
    tx.abort();
  } catch {
    // It has ended by itself.
  }
}

/** Records in IndexedDB. Made by {@link openIndexedDb}. */
class IndexedDbStore implements Store {
  readonly keeping = 'disk';
  readonly #db: IDBPDatabase<Schema>;
  readonly #locks: LockManager;
  /** Locks of the cases that this store writes to. */
  readonly #held = new Set<() => void>();

  constructor(db: IDBPDatabase<Schema>, locks: LockManager) {
    this.#db = db;
    this.#locks = locks;
  }

  async #read<T>(names: Name[], work: (tx: Transaction<'readonly'>) => Promise<T>): Promise<T> {
    try {
      return await work(this.#db.transaction(names));
    } catch (error) {
      throw toTrouble(error);
    }
  }

  /**
   * Runs `work` and waits until the transaction is on disk. A request's error, the transaction's
   * and its abort (a full disk shows only there) all end here.
   */
  async #write<T>(names: Name[], work: (tx: Transaction<'readwrite'>) => Promise<T>): Promise<T> {
    let done: Promise<void> = Promise.resolve();
    try {
      const tx = this.#db.transaction(names, 'readwrite', { durability: 'strict' });
      done = tx.done;
      // `done` is awaited below; until then its rejection must not count as unhandled.
      done.catch(() => undefined);
      try {
        const result = await work(tx);
        await done;
        return result;
      } catch (error) {
        // What was written before the failure must not stay.
        abort(tx);
        throw error;
      }
    } catch (error) {
      const aborted = error instanceof DOMException && error.name === 'AbortError';
      // A request that fell with its transaction knows less than the transaction does.
      const cause: unknown = aborted ? await done.catch((reason: unknown) => reason) : error;
      throw toTrouble(cause ?? error);
    }
  }

  /** Takes the case's lock first, or is refused. */
  async #writer(caseId: string): Promise<CaseWriter> {
    const unlock = await lockCase(this.#locks, this.#db.name, caseId);
    this.#held.add(unlock);
    let held = true;
    return {
      caseId,
      keeping: 'disk',
      append: async (line) => {
        if (!held) throw released();
        await this.#write(['entries'], async (tx) => {
          mustFollow(caseId, await lastLine(tx, caseId), line);
          await tx.objectStore('entries').add({ caseId, n: line.n, line });
        });
      },
      release: () => {
        held = false;
        this.#held.delete(unlock);
        unlock();
      },
    };
  }

  async openCase(header: HeaderLine): Promise<CaseWriter> {
    const caseId = caseIdOf(header);
    await this.putRecord(header, []);
    return this.#writer(caseId);
  }

  async resumeCase(caseId: string): Promise<CaseWriter> {
    const writer = await this.#writer(caseId);
    // Under the lock: until it was had, another tab could have deleted the case.
    const known = await this.#read(['records'], (tx) => tx.objectStore('records').getKey(caseId));
    if (known !== undefined) return writer;
    writer.release();
    throw noSuchCase();
  }

  async putRecord(header: HeaderLine, lines: readonly Kept[], cutAfter?: number): Promise<void> {
    const caseId = caseIdOf(header);
    await this.#write(['records', 'entries', 'tombstones'], async (tx) => {
      const records = tx.objectStore('records');
      if ((await records.getKey(caseId)) !== undefined) throw caseExists();
      mustNotBeBuried(caseId, await tx.objectStore('tombstones').getAll());
      const entries = tx.objectStore('entries');
      for (const [i, line] of lines.entries()) mustFollow(caseId, lines[i - 1] ?? null, line);
      await Promise.all([
        records.add({ caseId, header, ...(cutAfter === undefined ? {} : { cutAfter }) }),
        ...lines.map((line) => entries.add({ caseId, n: line.n, line })),
      ]);
    });
  }

  async markCut(caseId: string, cutAfter: number): Promise<void> {
    await this.#write(['records'], async (tx) => {
      const records = tx.objectStore('records');
      const row = await records.get(caseId);
      if (row === undefined) throw noSuchCase();
      await records.put({ ...row, cutAfter });
    });
  }

  async lines(caseId: string): Promise<unknown[]> {
    return this.#read(['records', 'entries'], async (tx) => {
      const [record, rows] = await Promise.all([
        tx.objectStore('records').get(caseId),
        tx.objectStore('entries').getAll(rowsOf(caseId)),
      ]);
      if (record === undefined) throw noSuchCase();
      return [record.header, ...rows.map(({ line }) => line)];
    });
  }

  async deleteCase(tombstone: Tombstone): Promise<void> {
    const { caseId } = tombstone;
    const unlock = await lockCase(this.#locks, this.#db.name, caseId);
    try {
      await this.#write(['records', 'entries', 'tombstones'], async (tx) => {
        if ((await tx.objectStore('records').getKey(caseId)) === undefined) throw noSuchCase();
        const tombstones = tx.objectStore('tombstones');
        mustBury(tombstone, await tombstones.getAll(), await lastLine(tx, caseId));
        await Promise.all([
          tombstones.add(tombstone),
          tx.objectStore('entries').delete(rowsOf(caseId)),
          tx.objectStore('records').delete(caseId),
        ]);
      });
    } finally {
      unlock();
    }
  }

  async tombstones(): Promise<unknown[]> {
    return this.#read(['tombstones'], (tx) => tx.objectStore('tombstones').getAll());
  }

  async listCases(): Promise<CaseSummary[]> {
    return this.#read(['records', 'entries'], async (tx) => {
      const records = await tx.objectStore('records').getAll();
      const all = records.map(async ({ caseId, header, cutAfter }) =>
        summarise(header, await lastLine(tx, caseId), cutAfter),
      );
      return (await Promise.all(all)).toSorted(lastOpenedFirst);
    });
  }

  async unfinished(): Promise<CaseSummary[]> {
    return (await this.listCases()).filter(isUnfinished);
  }

  async settings() {
    const kept = await this.#read(['settings'], (tx) => tx.objectStore('settings').get(ONE));
    return readSettings(kept);
  }

  async putSettings(settings: Settings): Promise<void> {
    await this.#write(['settings'], (tx) => tx.objectStore('settings').put(settings, ONE));
  }

  async preparedCases(): Promise<CaseFile[]> {
    return this.#read(['cases'], (tx) => tx.objectStore('cases').getAll());
  }

  async prepareCase(facts: CaseFile): Promise<void> {
    await this.#write(['cases'], (tx) => tx.objectStore('cases').put(facts));
  }

  async dropPrepared(reference: string): Promise<void> {
    await this.#write(['cases'], (tx) => tx.objectStore('cases').delete(reference));
  }

  async signingKeys(): Promise<CryptoKeyPair> {
    const kept = await this.#read(['keys'], (tx) => tx.objectStore('keys').get(ONE));
    if (kept !== undefined) return kept;
    // Made outside the transaction, which would end while the key is being made; the first to
    // keep its key wins, in any tab.
    const made = await makeKey();
    return this.#write(['keys'], async (tx) => {
      const keys = tx.objectStore('keys');
      const first = await keys.get(ONE);
      if (first === undefined) await keys.add(made, ONE);
      return first ?? made;
    });
  }

  close(): void {
    for (const unlock of this.#held) unlock();
    this.#held.clear();
    this.#db.close();
  }
}

/**
 * Opens the database of this origin.
 * @throws StoreTrouble 'unavailable' where the browser has no storage or no Web Locks.
 */
export async function openIndexedDb(name = 'seatcall'): Promise<Store> {
  if (!('indexedDB' in globalThis) || !('locks' in navigator))
    throw new StoreTrouble('unavailable', 'This browser offers no storage to this page.');
  try {
    const db = await openDB<Schema>(name, VERSION, {
      upgrade,
      // A newer Seatcall in another tab waits for this one to let go.
      blocking: (_current, _blocked, event) => {
        if (event.target instanceof IDBDatabase) event.target.close();
      },
    });
    return new IndexedDbStore(db, navigator.locks);
  } catch (error) {
    throw toTrouble(error);
  }
}
