/** The work of the review page, apart from the page: it runs in a worker, so that the page stays free. */
import { withMeantSteps } from '../../machines/conduct/index.ts';
import type { Entry } from '../../machines/contract/index.ts';
import { parseJsonLines, verify, type Verdict, verifySealed } from '../../machines/record/index.ts';
import { counterfactual, NotASeating, Reviewer, TooHard } from '../../machines/review/index.ts';
import type { GradedDeviation, Move, ReviewedRecord } from '../../machines/review/index.ts';
import { FollowUps, PatternReview } from '../../machines/review/pattern/index.ts';
import type { Pattern } from '../../machines/review/pattern/index.ts';
import type { SeatingBar } from '../screens/picture-seating.ts';
import type { ReviewedView, ReviewRow } from '../screens/review-model.ts';
import { checkSignature } from '../store/signing.ts';

/** A record as it is given: a file's bytes, or the lines kept in this browser. */
export type ReviewSource =
  | { readonly bytes: Uint8Array }
  | { readonly lines: readonly unknown[]; readonly cut: boolean };

/** What is asked of the engine. */
export type ReviewRequest =
  | { readonly kind: 'take' | 'show'; readonly name: string; readonly source: ReviewSource }
  | { readonly kind: 'settle' | 'clear' };

/** What came of a request: what is wrong with a file, and what could be made of it. */
export interface ReviewReply {
  /** A row for the list; null where the record was not reviewed. */
  readonly row: ReviewRow | null;
  readonly view: ReviewedView | null;
  readonly problems: readonly string[];
  /** Answers `settle`: the restorations whose follow-up is known, and the pattern over two records or more. */
  readonly settled: { readonly followed: number; readonly pattern: Pattern | null } | null;
}

const NOTHING: ReviewReply = { row: null, view: null, problems: [], settled: null };

/** What can be reviewed: a record that verifies, or what is left of one that was cut off. */
interface Read extends Pick<Extract<Verdict, { ok: true }>, 'header' | 'entries' | 'written'> {
  readonly sealed: boolean;
  readonly cut: boolean;
  readonly problem: string | null;
}

type TitleOf = (tooth: string, step: string) => string;

const titlesIn =
  ({ header }: Pick<Read, 'header'>): TitleOf =>
  (tooth, step) => {
    const unit = header.plan.units.find((one) => one.tooth === tooth);
    const found = [...(unit?.steps ?? []), ...(unit?.spare ?? [])].find(({ id }) => id === step);
    return found?.title ?? step;
  };

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

/** Moves as the pattern counts them, one object for each activity however many records have it. */
const COUNTED = new Map<string, Move>();

function countedMove(activity: string): Move {
  const known = COUNTED.get(activity);
  if (known !== undefined) return known;
  const made: Move = { kind: 'synchronous', activity, entry: null, transition: null };
  COUNTED.set(activity, made);
  return made;
}

/** A record with no more than the pattern counts: a fraction of the memory. */
function counted(record: ReviewedRecord): ReviewedRecord {
  const activities = record.alignment.moves.flatMap(({ kind, activity }) =>
    kind === 'log' || activity === null ? [] : [activity],
  );
  const bare = (one: GradedDeviation): GradedDeviation => ({
    ...one,
    asked: '',
    found: '',
    source: '',
  });
  return {
    ...record,
    alignment: { ...record.alignment, moves: [...new Set(activities)].map(countedMove) },
    units: record.units.map((unit) => ({ ...unit, deviations: unit.deviations.map(bare) })),
    deviations: record.deviations.map(bare),
  };
}

async function read(source: ReviewSource): Promise<Read | string> {
  const verdict =
    'bytes' in source ? await verifySealed(source.bytes, checkSignature) : verify(source.lines);
  if (verdict.ok) {
    const seal = verdict.closing ?? verdict.checkpoint;
    // A file's was checked with it.
    if ('lines' in source && seal !== null && !(await checkSignature(seal)))
      return `The ${seal.kind} was changed: its signature does not fit.`;
    const cut = 'lines' in source && source.cut;
    return { ...meant(verdict), sealed: seal !== null, cut, problem: null };
  }
  const { line, message, cut } = verdict;
  const problem = `line ${line}: ${message}`;
  if (cut === null || cut.entries.length === 0) return problem;
  return { ...meant(cut), sealed: false, cut: true, problem };
}

/** Records of 0.1.0 do not say which step a command meant. */
const meant = ({ header, entries, written }: Pick<Read, 'header' | 'entries' | 'written'>) => ({
  header,
  written,
  entries: withMeantSteps({ header, entries, written }),
});

const begins = (source: ReviewSource, mark: string): boolean =>
  'bytes' in source && new TextDecoder().decode(source.bytes.subarray(0, 80)).includes(mark);

/** Reviews records one after another and keeps of each only what the pattern counts. */
export class ReviewEngine {
  readonly #reviewer = new Reviewer();
  #followUps = new FollowUps();
  #records: ReviewedRecord[] = [];

  /** Answers a request. Never rejects for what is wrong with a file. */
  async answer(request: ReviewRequest): Promise<ReviewReply> {
    switch (request.kind) {
      case 'clear':
        this.#followUps = new FollowUps();
        this.#records = [];
        return NOTHING;
      case 'settle':
        return {
          ...NOTHING,
          settled: { followed: this.#followUps.size, pattern: this.#pattern() },
        };
      case 'take':
        return begins(request.source, 'seatcall-follow-up/1')
          ? this.#followUp(request.source)
          : this.#take(request);
      case 'show':
        return this.#show(request);
    }
  }

  async #take({ name, source }: { name: string; source: ReviewSource }): Promise<ReviewReply> {
    const found = await read(source);
    if (typeof found === 'string') return { ...NOTHING, problems: [found] };
    const record = this.#review(name, found);
    const problems = found.problem === null ? [] : [found.problem];
    if (typeof record === 'string') return { ...NOTHING, problems: [...problems, record] };
    if (record.cutAfter === undefined) this.#records.push(counted(record));
    const { reference, deviations, cutAfter, invented } = record;
    const row = {
      name,
      reference,
      departures: deviations.length,
      cut: cutAfter !== undefined,
      invented,
    };
    return { ...NOTHING, row, problems };
  }

  async #show({ name, source }: { name: string; source: ReviewSource }): Promise<ReviewReply> {
    const found = await read(source);
    if (typeof found === 'string') return { ...NOTHING, problems: [found] };
    const record = this.#review(name, found);
    if (typeof record === 'string') return { ...NOTHING, problems: [record] };
    const { header, entries, sealed } = found;
    const seatings = seatingsOf(record, entries, titlesIn(found));
    const view = { record, sealed, seatings, guard: counterfactual(header, entries) };
    return { ...NOTHING, view };
  }

  #review(name: string, { header, entries, cut }: Read): ReviewedRecord | string {
    try {
      return this.#reviewer.review(name, { header, entries, cut });
    } catch (error) {
      if (error instanceof NotASeating || error instanceof TooHard) return error.message;
      throw error;
    }
  }

  #followUp(source: ReviewSource): ReviewReply {
    if (!('bytes' in source)) return NOTHING;
    const { lines, problem } = parseJsonLines(source.bytes);
    const problems = lines.flatMap(({ value }, i) =>
      (i === 0 ? this.#followUps.begin(value) : this.#followUps.add(value)).map(
        (one) => `line ${i + 1}: ${one}`,
      ),
    );
    const last = problem === null ? [] : [`line ${problem.line}: ${problem.message}`];
    return { ...NOTHING, problems: [...problems, ...last] };
  }

  /** Counted anew: follow-up may have come after the records. */
  #pattern(): Pattern | null {
    if (this.#records.length < 2) return null;
    const pattern = new PatternReview(this.#followUps);
    for (const record of this.#records) pattern.add(record);
    return pattern.result();
  }
}
