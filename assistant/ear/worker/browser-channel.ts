/** A {@link Channel} to a real worker of the page. */
import type { OpenChannel } from './channel.ts';
import { replySchema } from './protocol.ts';

/**
 * Opens channels to the workers that `spawn` makes. A worker holds a lock as long as it lives
 * (see neural.worker.ts): the page asks for the same lock and is given it when the worker dies,
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
        if (request.kind === 'open') watchLock(request.lock, signal, onDeath);
      },
      end() {
        ended.abort();
        worker.terminate();
      },
    };
  };
}

/** Waits until the worker holds the lock, then until it no longer does. */
function watchLock(lock: string, signal: AbortSignal, onDeath: (why: string) => void): void {
  const held = async (): Promise<boolean> => {
    const { held: locks = [] } = await navigator.locks.query();
    return locks.some(({ name }) => name === lock);
  };
  const watch = async (): Promise<void> => {
    while (!(await held())) {
      if (signal.aborted) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    await navigator.locks.request(lock, { signal }, () => onDeath('the worker is gone'));
  };
  watch().catch((error: unknown) => {
    // The signal ends the wait when we end the worker ourselves.
    if (!signal.aborted) onDeath(String(error));
  });
}
