/** A {@link Channel} to a real worker of the page. */
import type { OpenChannel } from './channel.ts';
import { watchLock } from './lock.ts';
import { replySchema } from './protocol.ts';

/**
 * Opens channels to the workers that `spawn` makes. A worker holds a lock as long as it lives
 * (lock.ts): the page asks for the same lock and is given it when the worker dies,
 * whatever it died of. An uncaught error is death too.
 */
export function browserChannel<Options>(spawn: () => Worker): OpenChannel<Options> {
  return ({ onReply, onDeath }) => {
    const worker = spawn();
    const ended = new AbortController();
    const { signal } = ended;
    worker.addEventListener(
      'message',
      ({ data }: MessageEvent<unknown>) => {
        const reply = replySchema.safeParse(data);
        if (reply.success) onReply(reply.data);
        else onDeath(`unreadable answer: ${reply.error.message}`);
      },
      { signal },
    );
    worker.addEventListener('error', (event) => onDeath(event.message || 'failed to start'), {
      signal,
    });
    worker.addEventListener('messageerror', () => onDeath('unreadable answer'), { signal });
    return {
      send(request) {
        worker.postMessage(request, request.kind === 'hear' ? [request.pcm.buffer] : []);
        if (request.kind !== 'open') return;
        watchLock(request.lock, signal, () => onDeath('the worker is gone')).catch(
          (error: unknown) => {
            // The signal ends the wait when we end the worker ourselves.
            if (!signal.aborted) onDeath(String(error));
          },
        );
      },
      end() {
        ended.abort();
        worker.terminate();
      },
    };
  };
}
