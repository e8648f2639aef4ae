import type { CaseFile, HeaderLine } from '../../machines/contract/index.ts';
import { verify } from '../../machines/record/index.ts';
import type { Tombstone } from '../../machines/record/index.ts';
import { MemoryStore } from './memory.ts';
import type { Settings } from './settings.ts';
import { isUnfinished, lastOpenedFirst } from './store.ts';
import type { CaseSummary, CaseWriter, Kept, Store } from './store.ts';
import { isStorageGone, StoreTrouble } from './trouble.ts';

/**
 * The disk with memory behind it. When the disk takes no more, a running case goes over to memory
 * with all its lines and goes on; `warn` is told. Everything else that fails, fails as it would
 * on disk.
 */
export class FallbackStore implements Store {
  readonly #disk: Store | null;
  readonly #memory = new MemoryStore();
  readonly #warn: (trouble: StoreTrouble) => void;
  #settingsInMemory: boolean;

  /** `disk` null: everything is kept in memory from the start. */
  constructor(disk: Store | null, warn: (trouble: StoreTrouble) => void) {
    this.#disk = disk;
    this.#warn = warn;
    this.#settingsInMemory = disk === null;
  }

  get keeping() {
    return this.#disk === null ? 'memory' : 'disk';
  }

  /** Tries the disk, and goes to memory when the disk is gone or full. */
  async #either<T>(onDisk: (disk: Store) => Promise<T>, inMemory: () => Promise<T>): Promise<T> {
    if (this.#disk === null) return inMemory();
    try {
      return await onDisk(this.#disk);
    } catch (error) {
      if (!isStorageGone(error)) throw error;
      const rest =
        'This is kept only as long as this tab is open: export the case before closing it.';
      this.#warn(new StoreTrouble(error.kind, `${error.message} ${rest}`, error));
      return inMemory();
    }
  }

  async #holds(caseId: string): Promise<boolean> {
    return (await this.#memory.listCases()).some((kase) => kase.caseId === caseId);
  }

  /** The disk's writer, until the disk fails it; then memory's, over the lines that are known. */
  #movable(onDisk: CaseWriter, header: HeaderLine, lines: Kept[]): CaseWriter {
    let writer = onDisk;
    let queue = Promise.resolve();
    const move = async (): Promise<void> => {
      await this.#memory.putRecord(header, lines);
      writer = await this.#memory.resumeCase(onDisk.caseId);
    };
    const append = async (line: Kept): Promise<void> => {
      await this.#either(
        () => writer.append(line),
        async () => {
          if (writer === onDisk) await move();
          await writer.append(line);
        },
      );
      lines.push(line);
    };
    return {
      caseId: onDisk.caseId,
      get keeping() {
        return writer.keeping;
      },
      append: (line) => {
        // One after the other: a line must not overtake the move of those before it.
        const kept = queue.then(() => append(line));
        queue = kept.catch(() => undefined);
        return kept;
      },
      release: () => {
        if (writer !== onDisk) writer.release();
        onDisk.release();
      },
    };
  }

  openCase(header: HeaderLine): Promise<CaseWriter> {
    return this.#either(
      async (disk) => this.#movable(await disk.openCase(header), header, []),
      () => this.#memory.openCase(header),
    );
  }

  async resumeCase(caseId: string): Promise<CaseWriter> {
    if (this.#disk === null || (await this.#holds(caseId))) return this.#memory.resumeCase(caseId);
    const writer = await this.#disk.resumeCase(caseId);
    try {
      const verdict = verify(await this.#disk.lines(caseId));
      if (!verdict.ok)
        throw new StoreTrouble(
          'broken',
          `The record on this machine was changed. ${verdict.message}`,
        );
      const { header, lines } = verdict.written;
      return this.#movable(writer, header, [...lines]);
    } catch (error) {
      writer.release();
      throw error;
    }
  }

  putRecord(header: HeaderLine, lines: readonly Kept[], cutAfter?: number): Promise<void> {
    return this.#either(
      (disk) => disk.putRecord(header, lines, cutAfter),
      () => this.#memory.putRecord(header, lines, cutAfter),
    );
  }

  async markCut(caseId: string, cutAfter: number): Promise<void> {
    const held = this.#disk === null || (await this.#holds(caseId));
    await (held ? this.#memory : (this.#disk ?? this.#memory)).markCut(caseId, cutAfter);
  }

  async deleteCase(tombstone: Tombstone): Promise<void> {
    if (this.#disk === null) return this.#memory.deleteCase(tombstone);
    if (await this.#holds(tombstone.caseId))
      throw new StoreTrouble(
        'unavailable',
        'Nothing was deleted: the disk took no more of this case, and its last part is kept only as long as this tab is open.',
      );
    return this.#disk.deleteCase(tombstone);
  }

  async tombstones(): Promise<unknown[]> {
    return (this.#disk ?? this.#memory).tombstones();
  }

  async lines(caseId: string): Promise<unknown[]> {
    if (this.#disk === null || (await this.#holds(caseId))) return this.#memory.lines(caseId);
    return this.#disk.lines(caseId);
  }

  async listCases(): Promise<CaseSummary[]> {
    const held = await this.#memory.listCases();
    const onDisk = (await this.#disk?.listCases()) ?? [];
    const others = onDisk.filter(({ caseId }) => !held.some((kase) => kase.caseId === caseId));
    return [...held, ...others].toSorted(lastOpenedFirst);
  }

  async unfinished(): Promise<CaseSummary[]> {
    return (await this.listCases()).filter(isUnfinished);
  }

  async settings() {
    if (this.#disk === null || this.#settingsInMemory) return this.#memory.settings();
    return this.#disk.settings();
  }

  putSettings(settings: Settings): Promise<void> {
    return this.#either(
      async (disk) => {
        await disk.putSettings(settings);
        this.#settingsInMemory = false;
      },
      async () => {
        this.#settingsInMemory = true;
        await this.#memory.putSettings(settings);
      },
    );
  }

  async preparedCases(): Promise<CaseFile[]> {
    const held = await this.#memory.preparedCases();
    const onDisk = (await this.#disk?.preparedCases()) ?? [];
    const others = onDisk.filter(({ reference }) => !held.some((f) => f.reference === reference));
    return [...held, ...others].toSorted((a, b) => (a.reference < b.reference ? -1 : 1));
  }

  prepareCase(facts: CaseFile): Promise<void> {
    return this.#either(
      async (disk) => {
        await disk.prepareCase(facts);
        await this.#memory.dropPrepared(facts.reference);
      },
      () => this.#memory.prepareCase(facts),
    );
  }

  async dropPrepared(reference: string): Promise<void> {
    await this.#memory.dropPrepared(reference);
    await this.#disk?.dropPrepared(reference);
  }

  signingKeys(): Promise<CryptoKeyPair> {
    return this.#either(
      (disk) => disk.signingKeys(),
      () => this.#memory.signingKeys(),
    );
  }

  close(): void {
    this.#memory.close();
    this.#disk?.close();
  }
}
