/** The desk: the drafted case, its plan, prepared cases, and records that come and go as files. */
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import type { CaseFile, Plan } from '../../machines/contract/index.ts';
import { parseJson } from '../../machines/record/index.ts';
import { type CaseDraft, candidateOf, draftOf, emptyDraft } from '../screens/draft.ts';
import type { AppState, RefusedFile } from '../screens/model.ts';
import { download, exportCase, type Imported, type Store } from '../store/index.ts';
import type { Board } from './board.ts';
import { keepingOf } from './records.ts';

/** A drafted case fit to be opened. */
export interface ReadyCase {
  readonly case: CaseFile;
  readonly plan: Plan;
}

/** Today where the practice is, ISO 8601. */
const today = (): string => {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};

/** A draft nobody has begun shows no problems yet. */
const isBlank = (draft: CaseDraft): boolean =>
  draft.reference === '' &&
  draft.units.every(({ tooth, material }) => tooth === '' && material === '');

function refusedOf(name: string, came: Imported): RefusedFile | null {
  if (came.kind === 'refused')
    return { name, reason: came.message, entry: came.entry, cutAfter: null };
  if (came.kind !== 'cut') return null;
  return { name, reason: came.message, entry: null, cutAfter: came.after };
}

export class Desk {
  readonly #board: Board;
  readonly #store: Store;
  readonly #examples: ReadonlyMap<string, CaseFile>;

  constructor(board: Board, store: Store, examples: ReadonlyMap<string, CaseFile>) {
    this.#board = board;
    this.#store = store;
    this.#examples = examples;
  }

  /** The lists as the store has them now. */
  async refresh(): Promise<void> {
    const { retentionYears } = this.#board.state.settings.values;
    const [cases, prepared, keeping] = await Promise.all([
      this.#store.listCases(),
      this.#store.preparedCases(),
      keepingOf(this.#store, retentionYears, new Date().toISOString()),
    ]);
    this.#set({
      cases,
      keeping,
      prepared: prepared.map(({ reference, invented, units }) => ({
        reference,
        invented,
        teeth: units.map(({ tooth }) => tooth),
      })),
    });
  }

  edit(draft: CaseDraft): void {
    const checked = checkCase(candidateOf(draft, today()));
    const problems = checked.ok || isBlank(draft) ? [] : checked.problems;
    this.#set({ draft, problems, plan: checked.ok ? makePlan(checked.case) : null });
  }

  clear(): void {
    this.edit(emptyDraft(this.#board.state.settings.values.shelf));
  }

  /** The draft if it is fit; shows its problems if not. */
  ready(): ReadyCase | null {
    const checked = checkCase(candidateOf(this.#board.state.desk.draft, today()));
    if (checked.ok) return { case: checked.case, plan: makePlan(checked.case) };
    this.#set({ problems: checked.problems, plan: null });
    return null;
  }

  loadExample(id: string): void {
    const found = this.#examples.get(id);
    if (found !== undefined) this.edit(draftOf(found));
  }

  async loadPrepared(reference: string): Promise<void> {
    const cases = await this.#store.preparedCases();
    const found = cases.find((one) => one.reference === reference);
    // It was kept for later: expiry is judged by the day it is opened.
    if (found !== undefined) this.edit({ ...draftOf(found), on: '' });
  }

  async prepare(): Promise<void> {
    const ready = this.ready();
    if (ready === null) return;
    await this.#store.prepareCase(ready.case);
    await this.refresh();
  }

  async dropPrepared(reference: string): Promise<void> {
    await this.#store.dropPrepared(reference);
    await this.refresh();
  }

  /** Reads case facts from a file; faults are told with their fields, and the draft is left alone. */
  async loadCase(file: File): Promise<void> {
    const refuse = (reason: string): void =>
      this.#set({ refusedFile: { name: file.name, reason, entry: null, cutAfter: null } });
    const read = parseJson(new Uint8Array(await file.arrayBuffer()));
    if (!read.ok) {
      refuse(read.line === null ? read.message : `Line ${read.line}: ${read.message}`);
      return;
    }
    const checked = checkCase(read.value);
    if (checked.ok) {
      this.edit(draftOf(checked.case));
      this.#set({ refusedFile: null });
      return;
    }
    refuse(checked.problems.map(({ field, message }) => `${field}: ${message}`).join(' '));
  }

  /** What came of an import; the file that waits for a passphrase is left to who asked. */
  async imported(name: string, came: Imported): Promise<void> {
    this.#set({ refusedFile: refusedOf(name, came) });
    await this.refresh();
  }

  async exportRecord(id: string): Promise<void> {
    download(await exportCase(this.#store, id, new Date().toISOString()));
  }

  dismissRefusedFile(): void {
    this.#set({ refusedFile: null });
  }

  #set(change: Partial<AppState['desk']>): void {
    this.#board.set({ desk: { ...this.#board.state.desk, ...change } });
  }
}
