/** The review page carried out: files go to the engine in its worker, what comes back goes on the page. */
import { checkFindings, cutCaveat, weigh } from '../../machines/review/weigh/index.ts';
import { count } from '../screens/format.ts';
import {
  BLANK_FINDINGS,
  type FindingsDraft,
  NO_REVIEW,
  type ReviewedView,
  type ReviewRow,
  type ReviewState,
  type UnreviewedFile,
} from '../screens/review-model.ts';
import { cutOf, openFile, type Store } from '../store/index.ts';
import type { Board } from './board.ts';
import type { ReviewReply, ReviewRequest, ReviewSource } from './review-engine.ts';

/** Findings of the form as a findings file has them; what nobody looked at is left out. */
function findingsFrom(draft: FindingsDraft): unknown {
  const { tooth, cement, coreInside, lost, form, known } = draft;
  return {
    format: 'seatcall-findings/1',
    tooth,
    cement,
    coreInside: coreInside === 'not-seen' ? null : coreInside === 'yes',
    ...(lost === '' ? {} : { lost }),
    form,
    known,
  };
}

/** Findings weighed against the record shown. */
export function weighedOf(
  findings: FindingsDraft,
  view: ReviewedView | null,
  pattern: ReviewState['pattern'] = null,
): Pick<ReviewState, 'problems' | 'weighing'> {
  if (view === null || findings.tooth === '') return { problems: [], weighing: null };
  const checked = checkFindings(findingsFrom(findings));
  if (!checked.ok) return { problems: checked.problems, weighing: null };
  const unit = view.record.units.find(({ tooth }) => tooth === findings.tooth) ?? null;
  const weighing = weigh(checked.findings, view.record.deviations, unit, pattern?.frequencies);
  const { cutAfter } = view.record;
  const caveats = [...(cutAfter === undefined ? [] : [cutCaveat(cutAfter)]), ...weighing.caveats];
  return { problems: [], weighing: { ...weighing, caveats } };
}

/** A file or a kept record to be read: what kept it from being read, or null to leave it. */
interface Given {
  readonly name: string;
  readonly source: () => Promise<ReviewSource | string | null>;
  /** It was opened with a passphrase: what it holds is kept, and not the passphrase. */
  readonly opened?: true;
}

/** Files read ahead of the engine: it never waits, and a folder is never in memory as a whole. */
const AHEAD = 8;
/** The page is told this often, ms: drawing is not what the time goes into. */
const TELL_MS = 150;

export class Review {
  readonly #board: Board;
  readonly #store: Store;
  readonly #ask: (request: ReviewRequest) => Promise<ReviewReply>;
  /** Files that wait for their passphrase. */
  #waiting: readonly File[] = [];
  #origins: Given[] = [];
  #rows: ReviewRow[] = [];
  #failed: UnreviewedFile[] = [];
  #toldMs = 0;
  /** Counts how often the page was cleared: what still comes for an earlier list is let go. */
  #turn = 0;

  constructor(board: Board, store: Store, ask: (request: ReviewRequest) => Promise<ReviewReply>) {
    this.#board = board;
    this.#store = store;
    this.#ask = ask;
  }

  /** Reviews files, as many as there are; a fault in one leaves the others. */
  async take(files: readonly File[]): Promise<void> {
    const locked: File[] = [];
    await this.#all(
      files.map((file) => ({
        name: file.name,
        source: async () => {
          const opened = await openFile(file, null);
          if (!('kind' in opened)) return { bytes: opened };
          if (opened.kind === 'refused') return opened.message;
          locked.push(file);
          return null;
        },
      })),
    );
    this.#waiting = [...this.#waiting, ...locked];
    if (locked.length > 0) this.#askPassphrase(null);
  }

  /** Tries a passphrase on all files that wait for one; those that it does not open go on waiting. */
  async unlock(passphrase: string): Promise<void> {
    const waiting = this.#waiting;
    this.#waiting = [];
    let problem: string | null = null;
    await this.#all(
      waiting.map((file) => ({
        name: file.name,
        opened: true as const,
        source: async () => {
          const opened = await openFile(file, passphrase);
          if (!('kind' in opened)) return { bytes: opened };
          if (opened.kind === 'refused') return opened.message;
          problem = opened.message;
          this.#waiting = [...this.#waiting, file];
          return null;
        },
      })),
    );
    this.#askPassphrase(problem);
  }

  /** Leaves the files that wait for a passphrase; they are told as not reviewed. */
  dismissLocked(): void {
    for (const { name } of this.#waiting)
      this.#failed.push({ name, message: 'Not reviewed: it is under a passphrase.' });
    this.#waiting = [];
    this.#tell(true);
    this.#askPassphrase(null);
  }

  #askPassphrase(problem: string | null): void {
    const [first, ...more] = this.#waiting;
    if (first === undefined) {
      // What another page waits with stays.
      if (this.#board.state.locked?.purpose === 'review') this.#board.set({ locked: null });
      return;
    }
    const others =
      more.length === 0 ? '' : ` and ${count(more.length, 'other file', 'other files')}`;
    this.#board.set({ locked: { name: `${first.name}${others}`, purpose: 'review', problem } });
  }

  /** Reviews every record kept in this browser. */
  async kept(): Promise<void> {
    const cases = await this.#store.listCases();
    await this.#all(cases.map(({ caseId, reference }) => this.#stored(caseId, reference)));
  }

  /** Reviews one record kept in this browser, alone, and shows the page. */
  async show(caseId: string): Promise<void> {
    await this.clear();
    this.#board.set({ page: 'review' });
    await this.#all([this.#stored(caseId, caseId.slice(0, 8))]);
  }

  #stored(caseId: string, name: string): Given {
    return {
      name,
      source: async () => ({
        lines: await this.#store.lines(caseId),
        cut: (await cutOf(this.#store, caseId)) !== null,
      }),
    };
  }

  /** Shows a record of the list: it is read and reviewed again, with what today's guard says of it. */
  async choose(chosen: number): Promise<void> {
    const origin = this.#origins[chosen];
    if (origin === undefined) return;
    this.#set({ chosen });
    const source = await origin.source();
    if (source === null || typeof source === 'string')
      throw new Error(`${origin.name}: ${source ?? 'it can no longer be read.'}`);
    const { view, problems } = await this.#ask({ kind: 'show', name: origin.name, source });
    // Another was chosen meanwhile.
    if (this.#state.chosen !== chosen) return;
    for (const message of problems) this.#failed.push({ name: origin.name, message });
    this.#set({ view, failed: this.#failed });
    this.edit({ ...BLANK_FINDINGS, tooth: view?.record.units[0]?.tooth ?? '' });
  }

  search(query: string): void {
    this.#set({ query });
  }

  edit(findings: FindingsDraft): void {
    const { view, pattern } = this.#state;
    this.#set({ findings, ...weighedOf(findings, view, pattern) });
  }

  async clear(): Promise<void> {
    this.#turn += 1;
    this.#waiting = [];
    this.#origins = [];
    this.#rows = [];
    this.#failed = [];
    this.#askPassphrase(null);
    this.#set(NO_REVIEW);
    await this.#ask({ kind: 'clear' });
  }

  get #state(): ReviewState {
    return this.#board.state.review;
  }

  #set(change: Partial<ReviewState>): void {
    this.#board.set({ review: { ...this.#state, ...change } });
  }

  /** Puts on the page what has come, now and then or at once. */
  #tell(now: boolean): void {
    if (!now && performance.now() - this.#toldMs < TELL_MS) return;
    this.#toldMs = performance.now();
    this.#set({ rows: [...this.#rows], failed: [...this.#failed] });
  }

  /** Has everything reviewed, in its order. */
  async #all(given: readonly Given[]): Promise<void> {
    const turn = this.#turn;
    this.#set({ reading: { done: 0, of: given.length } });
    const underWay = new Set<Promise<void>>();
    let done = 0;
    try {
      for (const one of given) {
        const source = await one.source();
        if (turn !== this.#turn) return;
        if (source !== null && typeof source !== 'string') {
          const reviewed = this.#one(one, source).finally(() => {
            underWay.delete(reviewed);
          });
          underWay.add(reviewed);
        } else if (source !== null) this.#failed.push({ name: one.name, message: source });
        done += 1;
        this.#set({ reading: { done, of: given.length } });
        this.#tell(false);
        if (underWay.size >= AHEAD) await Promise.race(underWay);
      }
      await Promise.all(underWay);
    } finally {
      if (turn === this.#turn) {
        this.#tell(true);
        await this.#settle();
      }
    }
  }

  async #one(given: Given, source: ReviewSource): Promise<void> {
    const turn = this.#turn;
    const { name } = given;
    const { row, problems } = await this.#ask({ kind: 'take', name, source });
    if (turn !== this.#turn) return;
    for (const message of problems) this.#failed.push({ name, message });
    if (row === null) return;
    this.#rows.push(row);
    this.#origins.push(given.opened ? { name, source: async () => source } : given);
  }

  /** What follows from the records there are now. */
  async #settle(): Promise<void> {
    const { settled } = await this.#ask({ kind: 'settle' });
    this.#set({ reading: null, ...settled });
    if (this.#state.chosen === null && this.#rows.length > 0) await this.choose(0);
  }
}
