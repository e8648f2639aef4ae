import type { ReviewReply, ReviewRequest } from './review-engine.ts';

interface Waiting {
  readonly resolve: (reply: ReviewReply) => void;
  readonly reject: (error: Error) => void;
}

/** Asks the review engine in its worker; the worker is started when it is first asked. */
export class ReviewWorker {
  readonly #open: () => Promise<Worker>;
  #worker: Promise<Worker> | null = null;
  #waiting: Waiting[] = [];

  constructor(open: () => Promise<Worker>) {
    this.#open = open;
  }

  /** Replies come in the order of the requests. @throws Error when the worker failed; the next request starts another. */
  ask(request: ReviewRequest): Promise<ReviewReply> {
    const opening = (this.#worker ??= this.#start());
    return new Promise((resolve, reject) => {
      this.#waiting.push({ resolve, reject });
      opening.then(
        (worker) => worker.postMessage(request, []),
        (error: unknown) => this.#fail(error instanceof Error ? error.message : String(error)),
      );
    });
  }

  async #start(): Promise<Worker> {
    const worker = await this.#open();
    worker.addEventListener('message', ({ data }: MessageEvent<ReviewReply>) => {
      this.#waiting.shift()?.resolve(data);
    });
    worker.addEventListener('error', ({ message }) => {
      worker.terminate();
      this.#fail(message);
    });
    return worker;
  }

  #fail(message: string): void {
    this.#worker = null;
    const failed = this.#waiting;
    this.#waiting = [];
    for (const { reject } of failed) reject(new Error(`The review stopped: ${message}`));
  }
}

/**
 * The worker of the page. Its script is a part of the page's own and not a bundle by itself: what
 * both need is built and loaded once.
 */
export async function openReviewWorker(): Promise<Worker> {
  const { address } = await import('./review.worker.ts');
  return new Worker(address, { type: 'module' });
}
