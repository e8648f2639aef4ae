import { describe, expect, test } from 'vitest';
import { fitnessOf } from '../../machines/review/align/align.ts';
import { project } from '../../machines/review/align/heuristic.ts';
import { align } from '../../machines/review/align/search.ts';
import { NetBuilder } from '../../machines/review/net/process-net.ts';
import type { Step } from '../../machines/review/net/process-net.ts';

/**
 * Requests for compensation: register (a), examine thoroughly (b) or casually (c), check the ticket
 * (d), decide (e), go round again (f), pay (g) or reject (h). In the first net examination and check
 * are parallel, in the second the check comes after the examination. Nets and alignments: van der
 * Aalst W. Process Mining: Data Science in Action, 2nd ed, Springer 2016, chapter 8, and van der Aalst W,
 * Adriansyah A, van Dongen B. WIREs Data Mining Knowl Discov 2012;2:182-192; both from memory.
 */
const parallel = (() => {
  const builder = new NetBuilder();
  const examined = builder.part('examined', 'start', 'end');
  const checked = builder.part('checked', 'start', 'end');
  const both = (from: string, to: string): readonly Step[] => [
    [examined, from, to],
    [checked, from, to],
  ];
  builder.add('a', ...both('start', 'open'));
  builder.add('b', [examined, 'open', 'done']);
  builder.add('c', [examined, 'open', 'done']);
  builder.add('d', [checked, 'open', 'done']);
  builder.add('e', ...both('done', 'decided'));
  builder.add('f', ...both('decided', 'open'));
  builder.add('g', ...both('decided', 'end'));
  builder.add('h', ...both('decided', 'end'));
  return project(builder.build());
})();

const sequential = (() => {
  const builder = new NetBuilder();
  const one = builder.part('one', 'start', 'end');
  for (const [label, from, to] of [
    ['a', 'start', 'p1'],
    ['b', 'p1', 'p2'],
    ['c', 'p1', 'p2'],
    ['d', 'p2', 'p3'],
    ['e', 'p3', 'p4'],
    ['f', 'p4', 'p1'],
    ['g', 'p4', 'end'],
    ['h', 'p4', 'end'],
  ] as const) {
    builder.add(label, [one, from, to]);
  }
  return project(builder.build());
})();

const costs = (net: typeof parallel, trace: string) => {
  const { cost, moves } = align(net, trace.split(''));
  const shortest = align(net, []).cost;
  return {
    cost,
    fitness: fitnessOf(cost, trace.length + shortest),
    moves: moves.map(({ event, transition }) => [
      event === null ? '>>' : trace[event],
      transition === null ? '>>' : transition.label,
    ]),
  };
};

describe('published nets', () => {
  test('a trace the net can replay has a perfect alignment', () => {
    expect(costs(parallel, 'acdeh')).toEqual({
      cost: 0,
      fitness: 1,
      moves: 'acdeh'.split('').map((each) => [each, each]),
    });
    expect(costs(parallel, 'abdefdceg').cost).toBe(0);
  });

  test('the check before the examination: fits where they are parallel, costs 2 of 10 where not', () => {
    expect(costs(parallel, 'adceh').fitness).toBe(1);
    const { cost, fitness, moves } = costs(sequential, 'adceh');
    expect([cost, fitness]).toEqual([2, 0.8]);
    // Either the check is too early, or the examination was late: both explanations are optimal.
    const amiss = moves.filter(([event, label]) => event !== label);
    expect([
      ['d', '>>', '>>', 'd'],
      ['>>', 'c', 'c', '>>'],
      ['>>', 'b', 'c', '>>'],
    ]).toContainEqual(amiss.flat());
  });

  test('nothing examined, nothing decided', () => {
    expect(costs(parallel, 'adeh')).toMatchObject({ cost: 1, fitness: 1 - 1 / 9 });
    expect(costs(parallel, 'ah')).toMatchObject({ cost: 3, fitness: 1 - 3 / 7 });
  });

  test('an empty trace makes the shortest way up; a foreign one fits not at all', () => {
    expect(costs(parallel, '')).toMatchObject({ cost: 5, fitness: 0 });
    expect(costs(parallel, 'xyz')).toMatchObject({ cost: 8, fitness: 0 });
  });

  test('a round begun and not decided again', () => {
    expect(costs(parallel, 'abdefdbeg')).toMatchObject({ cost: 0 });
    expect(costs(parallel, 'abdefg')).toMatchObject({ cost: 1 });
  });
});
