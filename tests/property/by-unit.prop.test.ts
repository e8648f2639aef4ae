import fc from 'fast-check';
import { expect, test } from 'vitest';
import { alignByUnit } from '../../machines/review/align/by-unit.ts';
import type { Component, ProcessNet, Transition } from '../../machines/review/net/process-net.ts';
import { leastCost } from '../review/least-cost.ts';

const runs = process.env['SEATCALL_NIGHTLY'] === '1' ? 20_000 : 400;

/** Components of a net: two units of two automata each, three openers, two closers. */
const UNITS = ['u', 'v'] as const;
const OPENERS = ['check', 'talk', 'airway'] as const;
const CLOSERS = ['told', 'lots'] as const;
const component = (name: string, places: number): Component => ({
  name,
  places: Array.from({ length: places }, (_, i) => `${i}`),
  initial: 0,
  final: places - 1,
});
const COMPONENTS = [
  ...UNITS.flatMap((unit) => [component(`${unit} one`, 3), component(`${unit} two`, 3)]),
  ...OPENERS.map((name) => component(name, 2)),
  ...CLOSERS.map((name) => component(name, 2)),
];
const indexOf = (name: string): number => COMPONENTS.findIndex((one) => one.name === name);

const move = fc.record({
  label: fc.option(fc.constantFrom('a', 'b', 'c'), { nil: null, freq: 5 }),
  /** Which of the unit's automata it moves. */
  which: fc.constantFrom('one', 'two', 'both'),
  from: fc.tuple(fc.nat(2), fc.nat(2)),
  to: fc.tuple(fc.nat(2), fc.nat(2)),
  needs: fc.subarray([...OPENERS], { maxLength: 2 }),
});

interface Arcs {
  readonly which: string;
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** There is always a way to the end. */
const WAY = [
  { label: 'a', which: 'both', from: [0, 0], to: [1, 1], needs: ['check'] },
  { label: 'b', which: 'one', from: [1, 0], to: [2, 0], needs: [] },
  { label: 'c', which: 'two', from: [0, 1], to: [0, 2], needs: ['talk', 'airway'] },
] as const;

/** The first automaton's last place is never left: it is where the closers find the unit done. */
const arcsOf = (unit: string, { which, from, to }: Arcs) =>
  (['one', 'two'] as const).flatMap((name, i) => {
    if (which !== 'both' && which !== name) return [];
    const start = from[i] ?? 0;
    const stuck = name === 'one' && start === 2;
    return [{ component: indexOf(`${unit} ${name}`), from: start, to: stuck ? 2 : (to[i] ?? 0) }];
  });

const net: fc.Arbitrary<ProcessNet> = fc
  .record({
    moves: fc.tuple(
      fc.array(move, { minLength: 2, maxLength: 7 }),
      fc.array(move, { minLength: 2, maxLength: 7 }),
    ),
    /** Whether an opener waits for the check, and whether an event may come again. */
    waits: fc.boolean(),
    again: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
  })
  .map(({ moves, waits, again }) => {
    const drawn = UNITS.flatMap((unit, u) =>
      [...WAY, ...(moves[u] ?? [])].map(({ label, needs, ...arcs }) => ({
        label: label === null ? null : `${unit} ${label}`,
        arcs: [
          ...arcsOf(unit, arcs),
          ...needs.map((name) => ({ component: indexOf(name), from: 1, to: 1 })),
        ],
      })),
    );
    const once = [...OPENERS, ...CLOSERS].flatMap((name, i) => {
      const own = indexOf(name);
      const first =
        waits && name === 'talk' ? [{ component: indexOf('check'), from: 1, to: 1 }] : [];
      const closes = i >= OPENERS.length;
      const done = UNITS.map((unit) => ({ component: indexOf(`${unit} one`), from: 2, to: 2 }));
      return [
        {
          label: name,
          arcs: [{ component: own, from: 0, to: 1 }, ...first, ...(closes ? done : [])],
        },
        ...(again[i] === true ? [{ label: name, arcs: [{ component: own, from: 1, to: 1 }] }] : []),
      ];
    });
    const transitions = [...drawn, ...once].map((one, i): Transition => ({ id: `t${i}`, ...one }));
    return { components: COMPONENTS, transitions };
  });

const trace = fc.array(
  fc.constantFrom('u a', 'u b', 'u c', 'v a', 'v b', 'v c', ...OPENERS, ...CLOSERS, 'foreign'),
  { maxLength: 8 },
);

const cost = (given: ProcessNet, events: readonly string[], end: 'final' | 'anywhere') =>
  alignByUnit(given, events, end)?.cost ?? 'not of that shape';

test('aligned unit by unit, the cost is the least there is, and the moves hold on the net', () => {
  fc.assert(
    fc.property(net, trace, fc.constantFrom('final', 'anywhere'), (given, events, end) => {
      expect(cost(given, events, end)).toBe(leastCost(given, events, end));
    }),
    { numRuns: runs },
  );
});
