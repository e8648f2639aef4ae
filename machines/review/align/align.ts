import type { Alignment, Move } from '../deviation.ts';
import type { Activity } from '../trace/activity.ts';
import type { Projected } from './heuristic.ts';
import { align } from './search.ts';
import type { Found } from './search.ts';

const shortest = new WeakMap<Projected, number>();

/** Activities on the shortest way through the net: an empty trace has to make all of them up. */
function shortestOf(projected: Projected): number {
  const known = shortest.get(projected);
  if (known !== undefined) return known;
  const { cost } = align(projected, []);
  shortest.set(projected, cost);
  return cost;
}

/**
 * Fitness of a trace that costs `cost` where the worst explanation costs `worst`: 1 when nothing
 * is amiss, 0 when nothing fits (van der Aalst W, Adriansyah A, van Dongen B. WIREs Data Mining
 * Knowl Discov 2012;2:182-192).
 */
export const fitnessOf = (cost: number, worst: number): number =>
  worst === 0 ? 1 : 1 - cost / worst;

function moveOf({ event, transition }: Found, activities: readonly Activity[]): Move {
  const activity = event === null ? undefined : activities[event];
  const label = transition?.label ?? activity?.label ?? null;
  const kind =
    transition === null
      ? 'log'
      : event !== null
        ? 'synchronous'
        : label === null
          ? 'silent'
          : 'model';
  return {
    kind,
    activity: label,
    entry: activity?.entry ?? null,
    transition: transition?.id ?? null,
  };
}

/**
 * Aligns what happened with a plan's net.
 * @throws TooHard when a trace is so far from the plan that the search is given up.
 */
export function alignTrace(projected: Projected, activities: readonly Activity[]): Alignment {
  const found = align(
    projected,
    activities.map(({ label }) => label),
  );
  return {
    cost: found.cost,
    fitness: fitnessOf(found.cost, activities.length + shortestOf(projected)),
    moves: found.moves.map((move) => moveOf(move, activities)),
  };
}
