/** `review`: verifies records, aligns them with their plans, grades what departs, weighs a debond. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { parseJson } from '../../machines/record/index.ts';
import type { ReviewedRecord } from '../../machines/review/index.ts';
import { FollowUps, PatternReview } from '../../machines/review/pattern/index.ts';
import type { Pattern } from '../../machines/review/pattern/index.ts';
import { checkFindings, cutCaveat, Findings, weigh } from '../../machines/review/weigh/index.ts';
import type { Weighing } from '../../machines/review/weigh/index.ts';
import { Interrupted, passphraseFor } from './ask-passphrase.ts';
import { WrongUse } from './hear-options.ts';
import type { Failed, Reviewed } from './review-batch.ts';
import { GuardCount } from './review-guard-text.ts';
import { reviewFiles } from './review-many.ts';
import { readReviewOptions, REVIEW_USAGE } from './review-options.ts';
import type { ReviewOptions } from './review-options.ts';
import { patternText } from './review-pattern-text.ts';
import { failedText, recordLine, recordText } from './review-text.ts';
import { weighingText } from './review-weighing-text.ts';

/** Up to this many records are each told in full, and replayed through today's machine unasked. */
const FEW = 12;

const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

/** Writes, and waits where the reader is slower: memory stays flat. */
async function write(text: string): Promise<void> {
  if (process.stdout.write(text)) return;
  await new Promise<void>((resolve) => {
    process.stdout.once('drain', resolve);
  });
}

/** Folders stand for the record files in them. */
async function pathsOf(given: readonly string[]): Promise<readonly string[]> {
  const found = await Promise.all(
    given.map(async (path) => {
      const folder = await stat(path).then(
        (stats) => stats.isDirectory(),
        () => false,
      );
      if (!folder) return [path];
      const names = (await readdir(path))
        .filter((name) => /\.jsonl(?:\.jwe)?$/.test(name))
        .toSorted();
      if (names.length === 0)
        throw new WrongUse(`${path}: no record (.jsonl, .jsonl.jwe) in this folder`);
      return names.map((name) => join(path, name));
    }),
  );
  return found.flat();
}

/** @throws WrongUse with every problem of the findings. */
async function readFindings(path: string): Promise<Findings> {
  const bytes = await readFile(path).catch((error: unknown) => {
    throw new WrongUse(`cannot read --findings ${path}: ${because(error)}`);
  });
  const read = parseJson(bytes);
  if (!read.ok) {
    throw new WrongUse(`${path}${read.line === null ? '' : `:${read.line}`}: ${read.message}`);
  }
  const checked = checkFindings(read.value);
  if (checked.ok) return checked.findings;
  const lines = checked.problems.map(({ field, message }) => `  ${field}: ${message}`);
  throw new WrongUse(`${path} has problems:\n${lines.join('\n')}`);
}

/** @throws WrongUse with the line at fault. */
async function readFollowUps(path: string): Promise<FollowUps> {
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw new WrongUse(`cannot read --follow-up ${path}: ${because(error)}`);
  });
  const followUps = new FollowUps();
  for (const [i, line] of text.split('\n').entries()) {
    if (line === '') continue;
    const read = parseJson(new TextEncoder().encode(line));
    const problems = !read.ok
      ? [read.message]
      : i === 0
        ? followUps.begin(read.value)
        : followUps.add(read.value);
    const [first] = problems;
    if (first !== undefined) throw new WrongUse(`${path}:${i + 1}: ${first}`);
  }
  return followUps;
}

/** The record that findings are about: of their case where they name one, with their tooth. */
const isOf = ({ reference, tooth }: Findings, record: ReviewedRecord): boolean =>
  (reference === undefined || record.reference === reference) &&
  record.units.some((unit) => unit.tooth === tooth);

/** Weighs findings against the record they are about; alone where there is none. */
function weighed(
  findings: Findings,
  record: ReviewedRecord | null,
  pattern: Pattern | null,
): Weighing {
  const unit = record?.units.find(({ tooth }) => tooth === findings.tooth) ?? null;
  const weighing = weigh(findings, record?.deviations ?? [], unit, pattern?.frequencies);
  const { reference, tooth } = findings;
  const of = reference === undefined ? `tooth ${tooth}` : `case ${reference} with tooth ${tooth}`;
  const first =
    record === null
      ? [`None of the records reviewed is of ${of}: look at the findings' tooth and reference.`]
      : record.cutAfter === undefined
        ? []
        : [cutCaveat(record.cutAfter)];
  return { ...weighing, caveats: [...first, ...weighing.caveats] };
}

const isWhole = ({ cutAfter }: ReviewedRecord): boolean => cutAfter === undefined;

/** A reviewed record as the JSON has it. */
const toldOf = ({ record, sealed, guard }: Omit<Reviewed, 'ok'>) => ({
  ...record,
  sealed,
  ...(guard === null ? {} : { guard }),
});

/** Tells results as they come; keeps only what the end needs. */
class Teller {
  readonly #options: ReviewOptions;
  readonly #findings: Findings | null;
  readonly #pattern: PatternReview | null;
  readonly #failed: Failed[] = [];
  readonly #few: boolean;
  #about: ReviewedRecord | null = null;
  #told = 0;
  readonly #guard = new GuardCount();

  constructor(
    options: ReviewOptions,
    parts: { findings: Findings | null; pattern: PatternReview | null; few: boolean },
  ) {
    this.#options = options;
    this.#findings = parts.findings;
    this.#pattern = parts.pattern;
    this.#few = parts.few;
  }

  async begin(): Promise<void> {
    if (this.#options.json) await write('{"format":"seatcall-review/1","records":[');
  }

  async take(result: Reviewed | Failed): Promise<void> {
    if (!result.ok) {
      this.#failed.push(result);
      process.stderr.write(`${failedText(result)}\n`);
      if (result.leading !== undefined) await this.#takeLeading(result.leading);
      return;
    }
    const { record, sealed, guard } = result;
    this.#pattern?.add(record);
    if (guard !== null) this.#guard.add(guard);
    this.#find(record);
    if (this.#options.json) {
      const one = JSON.stringify(toldOf({ record, sealed, guard }));
      await write(`${this.#told === 0 ? '' : ','}\n${one}`);
    } else await write(this.#few ? `${recordText(result)}\n` : `${recordLine(result)}\n`);
    this.#told += 1;
  }

  /** Keeps the record that the findings are about: a whole one before one that was cut off. */
  #find(record: ReviewedRecord): void {
    if (this.#findings === null || !isOf(this.#findings, record)) return;
    const before = this.#about;
    const better =
      before === null ||
      (isWhole(record) === isWhole(before) ? before.opened < record.opened : isWhole(record));
    if (better) this.#about = record;
  }

  /** What is left of a record that was cut off: told apart, and no part of the pattern. */
  async #takeLeading(leading: Reviewed): Promise<void> {
    this.#find(leading.record);
    if (!this.#options.json)
      await write(this.#few ? `${recordText(leading)}\n` : `${recordLine(leading)}\n`);
  }

  /** Tells the rest; whether every file was reviewed. */
  async end(): Promise<boolean> {
    const pattern = this.#pattern?.result() ?? null;
    const weighing = this.#findings === null ? null : weighed(this.#findings, this.#about, pattern);
    const about = this.#about?.record ?? null;
    if (this.#options.json) {
      const failed = this.#failed.map(({ ok: _ok, leading, ...rest }) =>
        leading === undefined ? rest : { ...rest, leading: toldOf(leading) },
      );
      const rest = {
        failed,
        ...(weighing === null ? {} : { weighing: { record: about, ...weighing } }),
        ...(pattern === null ? {} : { pattern }),
      };
      await write(`\n],${JSON.stringify(rest).slice(1)}\n`);
    } else {
      if (weighing !== null) await write(`\n${weighingText(weighing, about)}`);
      if (pattern !== null && this.#told > 1) {
        await write(`\n${patternText(pattern)}`);
        await write(`${this.#guard.text()}\n`);
      }
    }
    return this.#failed.length === 0;
  }
}

async function review(options: ReviewOptions): Promise<boolean> {
  const paths = await pathsOf(options.records);
  const few = paths.length <= FEW;
  const findings = options.findings === null ? null : await readFindings(options.findings);
  const followUps = options.followUp === null ? null : await readFollowUps(options.followUp);
  const pattern = paths.length > 1 || followUps !== null ? new PatternReview(followUps) : null;
  const passphrase = await passphraseFor(paths);
  const teller = new Teller(options, { findings, pattern, few });
  await teller.begin();
  for await (const result of reviewFiles({ paths, guard: few || options.guard, passphrase }))
    await teller.take(result);
  return teller.end();
}

/** Whoever read us has gone: nothing more to tell. */
process.stdout.on('error', (error: Error) => {
  if (!('code' in error) || error.code !== 'EPIPE') throw error;
  process.exit();
});

async function run(args: readonly string[]): Promise<0 | 1> {
  const options = readReviewOptions(args);
  if (options.action === 'help') await write(REVIEW_USAGE);
  else if (options.action === 'schema') {
    await write(
      `${JSON.stringify(z.toJSONSchema(Findings, { unrepresentable: 'any' }), null, 2)}\n`,
    );
  } else return (await review(options)) ? 0 : 1;
  return 0;
}

process.exitCode = await run(process.argv.slice(2)).catch((error: unknown) => {
  if (error instanceof Interrupted) return 130;
  if (!(error instanceof WrongUse)) throw error;
  process.stderr.write(`review: ${error.message}\n${REVIEW_USAGE}`);
  return 2;
});
