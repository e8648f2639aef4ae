/** Records reviewed in the browser: read, verified, aligned, weighed, counted together. */
import { withMeantSteps } from '../../machines/conduct/index.ts';
import type { Entry } from '../../machines/contract/index.ts';
import { parseJsonLines, verify, type Verdict, verifySealed } from '../../machines/record/index.ts';
import { NotASeating, Reviewer, TooHard } from '../../machines/review/index.ts';
import type { ReviewedRecord } from '../../machines/review/index.ts';
import { FollowUps, PatternReview } from '../../machines/review/pattern/index.ts';
import { checkFindings, cutCaveat, weigh } from '../../machines/review/weigh/index.ts';
import { count } from '../screens/format.ts';
import type { SeatingBar } from '../screens/picture-seating.ts';
import {
  BLANK_FINDINGS,
  type FindingsDraft,
  NO_REVIEW,
  type ReviewedView,
  type ReviewState,
  type UnreviewedFile,
} from '../screens/review-model.ts';
import { cutOf, openFile, type Store } from '../store/index.ts';
import { checkSignature } from '../store/signing.ts';
import type { Board } from './board.ts';

/** More records than this are for the terminal, which does not keep them. */
const MOST = 500;

/** What can be reviewed: a record that verifies, or what is left of one that was cut off. */
type Readable = Pick<Extract<Verdict, { ok: true }>, 'header' | 'entries' | 'written'>;

/** Dwells with the time they began, from the entries that began and ended them. */
function seatingsOf(record: ReviewedRecord, entries: readonly Entry[], title: TitleOf) {
  const atOf = (n: number | undefined): number =>
    n === undefined ? 0 : (entries[n - 1]?.stamp.at ?? 0) / 1000;
  return record.units.map(({ tooth, dwells }) => ({
    tooth,
    bars: dwells.map(({ step, servedS, minS, targetS, maxS, entries: [begun] }): SeatingBar => ({
      title: title(tooth, step),
      fromS: atOf(begun),
      servedS,
      minS,
      targetS,
      maxS,
    })),
  }));
}

type TitleOf = (tooth: string, step: string) => string;

const titlesIn =
  ({ header }: Readable): TitleOf =>
  (tooth, step) => {
    const unit = header.plan.units.find((one) => one.tooth === tooth);
    const found = [...(unit?.steps ?? []), ...(unit?.spare ?? [])].find(({ id }) => id === step);
    return found?.title ?? step;
  };

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
  view: ReviewedView | undefined,
): Pick<ReviewState, 'problems' | 'weighing'> {
  if (view === undefined || findings.tooth === '') return { problems: [], weighing: null };
  const checked = checkFindings(findingsFrom(findings));
  if (!checked.ok) return { problems: checked.problems, weighing: null };
  const unit = view.record.units.find(({ tooth }) => tooth === findings.tooth) ?? null;
  const weighing = weigh(checked.findings, view.record.deviations, unit);
  const { cutAfter } = view.record;
  const caveats = [...(cutAfter === undefined ? [] : [cutCaveat(cutAfter)]), ...weighing.caveats];
  return { problems: [], weighing: { ...weighing, caveats } };
}

/** The pattern over these; null for fewer than two. */
function patternOf(records: readonly ReviewedView[], followUps: FollowUps) {
  const whole = records.filter(({ record }) => record.cutAfter === undefined);
  if (whole.length < 2) return null;
  const pattern = new PatternReview(followUps);
  for (const { record } of whole) pattern.add(record);
  return pattern.result();
}

export class Review {
  readonly #board: Board;
  readonly #store: Store;
  readonly #reviewer = new Reviewer();
  #followUps = new FollowUps();
  /** Files that wait for their passphrase. */
  #waiting: readonly File[] = [];

  constructor(board: Board, store: Store) {
    this.#board = board;
    this.#store = store;
  }

  /** Reviews files one after another; a fault in one leaves the others. */
  async take(files: readonly File[]): Promise<void> {
    this.#set({ busy: true });
    const locked: File[] = [];
    try {
      for (const file of files) if (!(await this.#file(file))) locked.push(file);
    } finally {
      this.#settle();
    }
    this.#waiting = [...this.#waiting, ...locked];
    if (locked.length > 0) this.#ask(null);
  }

  /** Tries a passphrase on all files that wait for one; those that it does not open go on waiting. */
  async unlock(passphrase: string): Promise<void> {
    this.#set({ busy: true });
    const waiting = this.#waiting;
    this.#waiting = [];
    let problem: string | null = null;
    try {
      for (const file of waiting) {
        const opened = await openFile(file, passphrase);
        if (!('kind' in opened)) await this.#opened(file.name, opened);
        else if (opened.kind === 'refused') this.#fail(file.name, opened.message);
        else {
          problem = opened.message;
          this.#waiting = [...this.#waiting, file];
        }
      }
    } finally {
      this.#settle();
    }
    this.#ask(problem);
  }

  /** Leaves the files that wait for a passphrase; they are told as not reviewed. */
  dismissLocked(): void {
    for (const { name } of this.#waiting)
      this.#fail(name, 'Not reviewed: it is under a passphrase.');
    this.#waiting = [];
    this.#ask(null);
  }

  #ask(problem: string | null): void {
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
    this.#set({ busy: true });
    try {
      for (const { caseId, reference } of await this.#store.listCases())
        await this.#stored(caseId, reference);
    } finally {
      this.#settle();
    }
  }

  /** Reviews one record kept in this browser, alone, and shows the page. */
  async show(caseId: string): Promise<void> {
    this.clear();
    this.#board.set({ page: 'review' });
    try {
      await this.#stored(caseId, caseId.slice(0, 8));
    } finally {
      this.#settle();
    }
  }

  choose(chosen: number): void {
    const [unit] = this.#state.records[chosen]?.record.units ?? [];
    this.#set({ chosen });
    this.edit({ ...BLANK_FINDINGS, tooth: unit?.tooth ?? '' });
  }

  edit(findings: FindingsDraft): void {
    const { records, chosen } = this.#state;
    const view = chosen === null ? undefined : records[chosen];
    this.#set({ findings, ...weighedOf(findings, view) });
  }

  clear(): void {
    this.#followUps = new FollowUps();
    this.#waiting = [];
    this.#ask(null);
    this.#set(NO_REVIEW);
  }

  get #state(): ReviewState {
    return this.#board.state.review;
  }

  #set(change: Partial<ReviewState>): void {
    this.#board.set({ review: { ...this.#state, ...change } });
  }

  #fail(name: string, message: string): void {
    const one: UnreviewedFile = { name, message };
    this.#set({ failed: [...this.#state.failed, one] });
  }

  /** Whether the file could be read; false when it waits for a passphrase. */
  async #file(file: File): Promise<boolean> {
    const opened = await openFile(file, null);
    if (!('kind' in opened)) await this.#opened(file.name, opened);
    else if (opened.kind === 'refused') this.#fail(file.name, opened.message);
    else return false;
    return true;
  }

  async #opened(name: string, bytes: Uint8Array): Promise<void> {
    const start = new TextDecoder().decode(bytes.subarray(0, 80));
    if (start.includes('seatcall-follow-up/1')) {
      this.#followUp(name, bytes);
      return;
    }
    const verdict = await verifySealed(bytes, checkSignature);
    if (verdict.ok) {
      this.#keep(name, verdict, verdict.closing !== null || verdict.checkpoint !== null);
      return;
    }
    const { line, message, cut } = verdict;
    this.#fail(name, `line ${line}: ${message}`);
    if (cut !== null && cut.entries.length > 0) this.#keep(name, cut, false, true);
  }

  async #stored(caseId: string, name: string): Promise<void> {
    const verdict = verify(await this.#store.lines(caseId));
    const cut = (await cutOf(this.#store, caseId)) !== null;
    if (verdict.ok) this.#keep(name, verdict, false, cut);
    else this.#fail(name, verdict.message);
  }

  #followUp(name: string, bytes: Uint8Array): void {
    const { lines, problem } = parseJsonLines(bytes);
    for (const [i, { value }] of lines.entries()) {
      const problems = i === 0 ? this.#followUps.begin(value) : this.#followUps.add(value);
      for (const one of problems) this.#fail(name, `line ${i + 1}: ${one}`);
    }
    if (problem !== null) this.#fail(name, `line ${problem.line}: ${problem.message}`);
  }

  #keep(name: string, read: Readable, sealed: boolean, cut = false): void {
    // Records of 0.1.0 do not say which step a command meant.
    const verdict: Readable = { ...read, entries: withMeantSteps(read) };
    const { records } = this.#state;
    if (records.length >= MOST) {
      this.#fail(
        name,
        `Not taken: this page holds ${MOST} records; the terminal takes any number.`,
      );
      return;
    }
    try {
      const { header, entries } = verdict;
      const record = this.#reviewer.review(name, { header, entries, cut });
      const seatings = seatingsOf(record, entries, titlesIn(verdict));
      this.#set({ records: [...records, { record, sealed, seatings }] });
    } catch (error) {
      if (!(error instanceof NotASeating) && !(error instanceof TooHard)) throw error;
      this.#fail(name, error.message);
    }
  }

  /** What follows from the records there are now. */
  #settle(): void {
    const { records, chosen } = this.#state;
    this.#set({
      busy: false,
      followed: this.#followUps.size,
      pattern: patternOf(records, this.#followUps),
    });
    if (chosen === null && records.length > 0) this.choose(0);
  }
}
