/** A worker as the ear's, whose recogniser reads written words: its life and death are the test. */
import type { Request } from '../../../assistant/ear/worker/protocol.ts';
import { serveRecogniser } from '../../../assistant/ear/worker/serve.ts';
import { holdLock } from '../../../assistant/ear/worker/lock.ts';
import { WrittenRecogniser } from '../../ear/written-recogniser.ts';

const handle = serveRecogniser<string>(
  () => Promise.resolve(new WrittenRecogniser()),
  (reply) => {
    self.postMessage(reply, { transfer: [] });
  },
);

self.addEventListener('message', ({ data }: MessageEvent<Request<string>>) => {
  if (data.kind === 'open') holdLock(data.lock);
  handle(data);
});
