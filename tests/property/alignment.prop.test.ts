import fc from 'fast-check';
import { expect, test } from 'vitest';
import { project } from '../../machines/review/align/heuristic.ts';
import type { TraceEnd } from '../../machines/review/align/heuristic.ts';
import { align } from '../../machines/review/align/search.ts';
import { mergeUnits } from '../../machines/review/net/merge.ts';
import {
  enabled,
  finalMarking,
  fire,
  initialMarking,
} from '../../machines/review/net/process-net.ts';
import type { Marking, ProcessNet } from '../../machines/review/net/process-net.ts';

const runs = process.env['SEATCALL_NIGHTLY'] === '1' ? 20_000 : 400;
const PLACES = 3;
const LABELS = ['a', 'b', 'c', 'd', 'e'];

/** Four automata of three places, two of them one unit's, that share transitions at random. */
const net: fc.Arbitrary<ProcessNet> = fc
  .array(
    fc.record({
      label: fc.option(fc.constantFrom(...LABELS), { nil: null, freq: 5 }),
      components: fc.subarray([0, 1, 2, 3], { minLength: 1, maxLength: 3 }),
      places: fc.array(fc.tuple(fc.nat(PLACES - 1), fc.nat(PLACES - 1)), {
        minLength: 4,
        maxLength: 4,
      }),
    }),
    { minLength: 4, maxLength: 14 },
  )
  .map((drawn) => ({
    components: ['u one', 'u two', 'v one', 'case'].map((name) => ({
      name,
      places: ['0', '1', '2'],
      initial: 0,
      final: PLACES - 1,
    })),
    transitions: drawn.map(({ label, components, places }, i) => ({
      id: `t${i}`,
      label,
      arcs: components.map((component) => {
        const [from, to] = places[component] ?? [0, 0];
        return { component, from, to };
      }),
    })),
  }));

/** The least cost by looking at everything; null where the end can't be reached. */
function leastCost(
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

const cost = (given: ProcessNet, trace: readonly string[], end?: TraceEnd): number | null => {
  try {
    return align(project(given), trace, end).cost;
  } catch {
    return null;
  }
};

test('an alignment is the cheapest there is, with each automaton by itself or a unit made one', () => {
  fc.assert(
    fc.property(
      net,
      fc.array(fc.constantFrom(...LABELS, 'foreign'), { maxLength: 7 }),
      (given, trace) => {
        const least = leastCost(given, trace);
        expect([cost(given, trace), cost(mergeUnits(given), trace)]).toEqual([least, least]);
      },
    ),
    { numRuns: runs },
  );
});

test('of a trace that was cut off too, which may leave the net wherever it has come to', () => {
  fc.assert(
    fc.property(
      net,
      fc.array(fc.constantFrom(...LABELS, 'foreign'), { maxLength: 7 }),
      (given, trace) => {
        const least = leastCost(given, trace, 'anywhere');
        const whole = mergeUnits(given);
        expect([cost(given, trace, 'anywhere'), cost(whole, trace, 'anywhere')]).toEqual([
          least,
          least,
        ]);
      },
    ),
    { numRuns: runs },
  );
});
