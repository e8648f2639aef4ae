import type { TraceEnd } from '../../machines/review/align/heuristic.ts';
import {
  enabled,
  finalMarking,
  fire,
  initialMarking,
} from '../../machines/review/net/process-net.ts';
import type { Marking, ProcessNet } from '../../machines/review/net/process-net.ts';

/** The least cost by looking at everything; null where the end can't be reached. */
export function leastCost(
  given: ProcessNet,
  trace: readonly string[],
  end: TraceEnd = 'final',
): number | null {
  const goal = finalMarking(given).join();
  const seen = new Set<string>();
  let near: { marking: Marking; i: number }[] = [{ marking: initialMarking(given), i: 0 }];
  for (let cost = 0; near.length > 0; cost += 1) {
    const far: typeof near = [];
    for (let at = near.pop(); at !== undefined; at = near.pop()) {
      const { marking, i } = at;
      const key = `${marking.join()}|${i}`;
      if (seen.has(key)) continue;
      seen.add(key);
      const there = end === 'anywhere' || marking.join() === goal;
      if (i === trace.length && there) return cost;
      if (i < trace.length) far.push({ marking, i: i + 1 });
      for (const transition of given.transitions) {
        if (!enabled(marking, transition)) continue;
        const next = fire(marking, transition);
        (transition.label === null ? near : far).push({ marking: next, i });
        if (transition.label !== null && transition.label === trace[i]) {
          near.push({ marking: next, i: i + 1 });
        }
      }
    }
    near = far;
  }
  return null;
}
