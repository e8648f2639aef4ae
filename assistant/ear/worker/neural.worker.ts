/** The worker that owns the neural recogniser. */
import { createNeuralRecogniser } from '../neural/index.ts';
import type { NeuralOptions } from '../neural/options.ts';
import { holdLock } from './lock.ts';
import type { Request } from './protocol.ts';
import { serveRecogniser } from './serve.ts';

const handle = serveRecogniser<NeuralOptions>(createNeuralRecogniser, (reply) => {
  // With options: the page's form of this call, which the DOM types know, wants an origin.
  self.postMessage(reply, { transfer: [] });
});

self.addEventListener('message', ({ data }: MessageEvent<Request<NeuralOptions>>) => {
  if (data.kind === 'open') holdLock(data.lock);
  handle(data);
});
