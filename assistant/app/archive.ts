/** Kept records and files of records: shown, checked, taken in, given out under a passphrase, deleted. */
import type { DeletionReason } from '../../machines/record/index.ts';
import type { LockedFile, RecordState } from '../screens/model.ts';
import {
  deleteCase,
  download,
  exportCase,
  exportLedger,
  importCase,
  openFile,
  passphraseProblem,
  sealFile,
  type Store,
  StoreTrouble,
} from '../store/index.ts';
import type { Board } from './board.ts';
import type { Desk } from './desk.ts';
import { checkBytes, recordOf } from './records.ts';

const now = (): string => new Date().toISOString();

export class Archive {
  readonly #board: Board;
  readonly #store: Store;
  readonly #desk: Desk;
  /** The file that waits for its passphrase. */
  #waiting: File | null = null;
  /** The file that was cut off, opened: its whole entries can still be kept. */
  #cut: { readonly name: string; readonly bytes: Uint8Array } | null = null;

  constructor(board: Board, store: Store, desk: Desk) {
    this.#board = board;
    this.#store = store;
    this.#desk = desk;
  }

  async show(id: string): Promise<void> {
    const { retentionYears } = this.#board.state.settings.values;
    const record = await recordOf(this.#store, id, retentionYears);
    this.#board.set({ record, page: 'record' });
  }

  /** Imports or checks a file; one under a passphrase waits for it. */
  async take(
    file: File,
    purpose: Exclude<LockedFile['purpose'], 'review'>,
    passphrase: string | null = null,
  ): Promise<void> {
    const { name } = file;
    if (purpose === 'check') this.#board.set({ checked: null });
    const opened = await openFile(file, passphrase);
    if ('kind' in opened && opened.kind === 'encrypted') {
      this.#waiting = file;
      this.#board.set({ locked: { name, purpose, problem: opened.message } });
      return;
    }
    this.dismissLocked();
    if (purpose === 'import') {
      const came = 'kind' in opened ? opened : await importCase(this.#store, opened);
      this.#cut = came.kind === 'cut' && !('kind' in opened) ? { name, bytes: opened } : null;
      await this.#desk.imported(name, came);
    } else if ('kind' in opened) {
      this.#board.set({ notice: `${name}: ${opened.message}` });
    } else this.#board.set({ checked: await checkBytes(this.#store, name, opened) });
  }

  /** Keeps the whole entries of the file that was cut off, marked as incomplete. */
  async keepCut(): Promise<void> {
    const cut = this.#cut;
    this.#cut = null;
    if (cut === null) return;
    await this.#desk.imported(cut.name, await importCase(this.#store, cut.bytes, null, true));
  }

  async unlock(passphrase: string): Promise<void> {
    const { locked } = this.#board.state;
    if (this.#waiting !== null && locked !== null && locked.purpose !== 'review')
      await this.take(this.#waiting, locked.purpose, passphrase);
  }

  dismissLocked(): void {
    this.#waiting = null;
    this.#board.set({ locked: null });
  }

  ask(asking: RecordState['asking']): void {
    this.#setRecord({ asking, problem: null });
  }

  async exportSealed(passphrase: string): Promise<void> {
    const { record } = this.#board.state;
    if (record === null) return;
    const problem = passphrase === '' ? 'The two are not the same.' : passphraseProblem(passphrase);
    this.#setRecord({ problem });
    if (problem !== null) return;
    download(await sealFile(await exportCase(this.#store, record.id, now()), passphrase));
    this.ask(null);
  }

  async remove(typed: string, reason: DeletionReason): Promise<void> {
    const { record } = this.#board.state;
    if (record === null) return;
    const { reference } = record.header.case;
    if (typed.trim() !== reference) {
      this.#setRecord({
        problem: `This is not its case reference, ${reference}. Nothing was deleted.`,
      });
      return;
    }
    try {
      const { n } = await deleteCase(this.#store, record.id, reason, now());
      const notice = `The record of ${reference} was deleted (deletion ${n}).`;
      this.#board.set({ record: null, page: 'desk', notice });
    } catch (error) {
      if (!(error instanceof StoreTrouble)) throw error;
      this.#setRecord({ problem: error.message });
    }
    await this.#desk.refresh();
  }

  async exportDeletions(): Promise<void> {
    download(await exportLedger(this.#store, now()));
  }

  #setRecord(change: Partial<RecordState>): void {
    const { record } = this.#board.state;
    if (record !== null) this.#board.set({ record: { ...record, ...change } });
  }
}
