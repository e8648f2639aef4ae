/** Many records over two cores, their results in the order asked for, a few batches at a time. */
import { fork } from 'node:child_process';
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { HELPER, reviewBatch } from './review-batch.ts';
import type { Batch, Failed, Reviewed } from './review-batch.ts';

/** Records a batch: enough that handing it over costs nothing beside it. */
const BATCH = 32;
/** Fewer records than this are reviewed before a second process would have started. */
const WORTH_HELPERS = 160;
/** Batches handed out and not yet taken: memory does not grow with the number of records. */
const AHEAD = 2;

function* batchesOf({ paths, ...how }: Batch): Generator<Batch> {
  for (let i = 0; i < paths.length; i += BATCH) yield { paths: paths.slice(i, i + BATCH), ...how };
}

/** A process that answers batches in the order it was given them: tsx does not run in threads. */
class Helper {
  readonly #child = fork(fileURLToPath(new URL('review-batch.ts', import.meta.url)), [HELPER], {
    serialization: 'advanced',
    // Whoever started this process may not have told Node how to read TypeScript.
    execArgv: ['--import', pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href],
  });
  readonly #waiting: {
    resolve: (results: readonly (Reviewed | Failed)[]) => void;
    reject: (error: unknown) => void;
  }[] = [];

  constructor() {
    this.#child.on('message', (results: readonly (Reviewed | Failed)[]) => {
      this.#waiting.shift()?.resolve(results);
    });
    const fail = (error: unknown): void => {
      for (const { reject } of this.#waiting.splice(0)) reject(error);
    };
    this.#child.on('error', fail);
    this.#child.on('exit', () => fail(new Error('Records were left without a review.')));
  }

  review(batch: Batch): Promise<readonly (Reviewed | Failed)[]> {
    const results = new Promise<readonly (Reviewed | Failed)[]>((resolve, reject) => {
      this.#waiting.push({ resolve, reject });
      this.#child.send(batch);
    });
    // Whoever awaits it hears of its failure; until then it is no unhandled one.
    results.catch(() => undefined);
    return results;
  }

  end(): void {
    this.#child.disconnect();
  }
}

/** Reviews files, over two processes where there are many, and gives each as it comes, in order. */
export async function* reviewFiles(all: Batch): AsyncGenerator<Reviewed | Failed> {
  if (all.paths.length < WORTH_HELPERS) {
    for (const batch of batchesOf(all)) yield* await reviewBatch(batch);
    return;
  }
  const helpers = Array.from({ length: Math.min(2, availableParallelism()) }, () => new Helper());
  try {
    const given: Promise<readonly (Reviewed | Failed)[]>[] = [];
    let turn = 0;
    for (const batch of batchesOf(all)) {
      const helper = helpers[turn % helpers.length];
      turn += 1;
      if (helper !== undefined) given.push(helper.review(batch));
      const first = given.length > helpers.length * AHEAD ? given.shift() : undefined;
      if (first !== undefined) yield* await first;
    }
    for (const results of given) yield* await results;
  } finally {
    for (const helper of helpers) helper.end();
  }
}
