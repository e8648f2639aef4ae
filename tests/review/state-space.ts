import {
  enabled,
  finalMarking,
  fire,
  initialMarking,
} from '../../machines/review/net/process-net.ts';
import type { ProcessNet } from '../../machines/review/net/process-net.ts';

/** Everything a net can come to. */
interface Explored {
  readonly markings: number;
  /** Markings from which the end can't be reached. */
  readonly stuck: number;
  /** Transitions that can never fire. */
  readonly dead: readonly string[];
}

/** Fires everything everywhere, then walks back from the end. */
export function explore(net: ProcessNet): Explored {
  const first = initialMarking(net);
  const seen = new Set([first.join()]);
  const waiting = [first];
  const before = new Map<string, string[]>();
  const fired = new Set<string>();
  for (let marking = waiting.pop(); marking !== undefined; marking = waiting.pop()) {
    for (const transition of net.transitions) {
      if (!enabled(marking, transition)) continue;
      fired.add(transition.id);
      const next = fire(marking, transition);
      const key = next.join();
      before.set(key, [...(before.get(key) ?? []), marking.join()]);
      if (seen.has(key)) continue;
      seen.add(key);
      waiting.push(next);
    }
  }
  const ends = new Set([finalMarking(net).join()]);
  for (const key of ends) for (const one of before.get(key) ?? []) ends.add(one);
  return {
    markings: seen.size,
    stuck: [...seen].filter((key) => !ends.has(key)).length,
    dead: net.transitions.filter(({ id }) => !fired.has(id)).map(({ label, id }) => label ?? id),
  };
}
