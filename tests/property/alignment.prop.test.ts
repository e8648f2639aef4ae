import fc from 'fast-check';
import { expect, test } from 'vitest';
import { project } from '../../machines/review/align/heuristic.ts';
import type { TraceEnd } from '../../machines/review/align/heuristic.ts';
import { align } from '../../machines/review/align/search.ts';
import { mergeUnits } from '../../machines/review/net/merge.ts';
import type { ProcessNet } from '../../machines/review/net/process-net.ts';
import { leastCost } from '../review/least-cost.ts';

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
