/** Many records over two cores, their results in the order asked for, a few batches at a time. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { reviewBatch } from './review-batch.ts';
import type { Batch, Failed, Reviewed } from './review-batch.ts';

/** Records a batch: enough that handing it over costs nothing beside it. */
const BATCH = 32;
/** Fewer records than this are reviewed before a second thread would have started. */
const WORTH_THREADS = 96;
/** Batches handed out and not yet taken: memory does not grow with the number of records. */
const AHEAD = 2;

function* batchesOf(paths: readonly string[], guard: boolean): Generator<Batch> {
  for (let i = 0; i < paths.length; i += BATCH) yield { paths: paths.slice(i, i + BATCH), guard };
}

/** A thread that answers batches in the order it was given them. */
class Thread {
  readonly #worker = new Worker(new URL('review-batch.ts', import.meta.url));
  readonly #waiting: {
    resolve: (results: readonly (Reviewed | Failed)[]) => void;
    reject: (error: unknown) => void;
  }[] = [];

  constructor() {
    this.#worker.on('message', (results: readonly (Reviewed | Failed)[]) => {
      this.#waiting.shift()?.resolve(results);
    });
    this.#worker.on('error', (error) => {
      for (const { reject } of this.#waiting.splice(0)) reject(error);
    });
  }

  review(batch: Batch): Promise<readonly (Reviewed | Failed)[]> {
    return new Promise((resolve, reject) => {
      this.#waiting.push({ resolve, reject });
      this.#worker.postMessage(batch, []);
    });
  }

  async end(): Promise<void> {
    await this.#worker.terminate();
  }
}

/** Reviews files, over threads where there are many, and gives each as it comes, in order. */
export async function* reviewFiles(
  paths: readonly string[],
  guard: boolean,
): AsyncGenerator<Reviewed | Failed> {
  if (paths.length < WORTH_THREADS) {
    for (const batch of batchesOf(paths, guard)) yield* await reviewBatch(batch);
    return;
  }
  const threads = Array.from({ length: Math.min(2, availableParallelism()) }, () => new Thread());
  try {
    const given: Promise<readonly (Reviewed | Failed)[]>[] = [];
    let turn = 0;
    for (const batch of batchesOf(paths, guard)) {
      const thread = threads[turn % threads.length];
      turn += 1;
      if (thread !== undefined) given.push(thread.review(batch));
      const first = given.length > threads.length * AHEAD ? given.shift() : undefined;
      if (first !== undefined) yield* await first;
    }
    for (const results of given) yield* await results;
  } finally {
    await Promise.all(threads.map((thread) => thread.end()));
  }
}
