/** Timers for the page, kept in a worker because a hidden page's are throttled. */
import type { MetronomeReply, MetronomeRequest } from './metronome-protocol.ts';

const running = new Map<number, ReturnType<typeof setTimeout>>();

addEventListener('message', ({ data }: MessageEvent<MetronomeRequest>) => {
  if (data.type === 'forget') {
    clearTimeout(running.get(data.id));
    running.delete(data.id);
    return;
  }
  const timer = setTimeout(() => {
    running.delete(data.id);
    postMessage({ id: data.id } satisfies MetronomeReply);
  }, data.delayMs);
  running.set(data.id, timer);
});
