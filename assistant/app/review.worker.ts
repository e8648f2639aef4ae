/** The review engine in a worker: requests are answered one after another, in their order. */
import { ReviewEngine } from './review-engine.ts';
import type { ReviewRequest } from './review-engine.ts';

const engine = new ReviewEngine();
let before = Promise.resolve();

async function answer(request: ReviewRequest, earlier: Promise<void>): Promise<void> {
  await earlier;
  try {
    self.postMessage(await engine.answer(request), { transfer: [] });
  } catch (error) {
    // Told to the page as the worker's own failure.
    reportError(error);
  }
}

/** Where this script lies, for the page that imports it to start it as a worker. */
export const address = import.meta.url;

// Imported by the page it only tells its address.
if (typeof document === 'undefined') {
  addEventListener('message', ({ data }: MessageEvent<ReviewRequest>) => {
    before = answer(data, before);
  });
}
