/**
 * The page's clock. A hidden page's own timers are held to once a second or less; a worker's are
 * not, and its messages still arrive on time, so waking goes through one.
 */
import type { Clock } from './clock.ts';
import type { MetronomeReply, MetronomeRequest } from './metronome-protocol.ts';

/** The part of a `Worker` the clock needs. */
export interface MetronomeWorker {
  postMessage(request: MetronomeRequest, transfer: Transferable[]): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<MetronomeReply>) => void): void;
}

/** A clock over `performance.now()` woken by the metronome worker. */
export function createMetronome(
  worker: MetronomeWorker,
  now: () => number = () => performance.now(),
): Clock {
  const tasks = new Map<number, () => void>();
  let lastId = 0;
  worker.addEventListener('message', ({ data }) => {
    const task = tasks.get(data.id);
    tasks.delete(data.id);
    task?.();
  });
  return {
    now,
    at(dueMs, task) {
      const id = ++lastId;
      tasks.set(id, task);
      worker.postMessage({ type: 'wake', id, delayMs: Math.max(0, dueMs - now()) }, []);
      return () => {
        if (tasks.delete(id)) worker.postMessage({ type: 'forget', id }, []);
      };
    },
  };
}

/** Starts the metronome worker and its clock. */
export function startMetronome(): Clock {
  return createMetronome(
    new Worker(new URL('./metronome.worker.ts', import.meta.url), {
      type: 'module',
      name: 'metronome',
    }),
  );
}
