import type { ReviewReply, ReviewRequest } from './review-engine.ts';

interface Waiting {
  readonly resolve: (reply: ReviewReply) => void;
  readonly reject: (error: Error) => void;
}

/** Asks the review engine in its worker; the worker is started when it is first asked. */
export class ReviewWorker {
  readonly #open: () => Worker;
  #worker: Worker | null = null;
  #waiting: Waiting[] = [];

  constructor(open: () => Worker) {
    this.#open = open;
  }

  /** Replies come in the order of the requests. @throws Error when the worker failed; the next request starts another. */
  ask(request: ReviewRequest): Promise<ReviewReply> {
    const worker = (this.#worker ??= this.#start());
    return new Promise((resolve, reject) => {
      this.#waiting.push({ resolve, reject });
      worker.postMessage(request, []);
    });
  }

  #start(): Worker {
    const worker = this.#open();
    worker.addEventListener('message', ({ data }: MessageEvent<ReviewReply>) => {
      this.#waiting.shift()?.resolve(data);
    });
    worker.addEventListener('error', ({ message }) => {
      worker.terminate();
      this.#worker = null;
      const failed = this.#waiting;
      this.#waiting = [];
      for (const { reject } of failed) reject(new Error(`The review stopped: ${message}`));
    });
    return worker;
  }
}

/** The worker of the page. */
export const openReviewWorker = (): Worker =>
  new Worker(new URL('./review.worker.ts', import.meta.url), { type: 'module' });
