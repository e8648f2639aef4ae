import type { Alignment, Move } from '../deviation.ts';
import type { Activity } from '../trace/activity.ts';
import type { Projected, TraceEnd } from './heuristic.ts';
import type { Found } from './found.ts';
import { align } from './search.ts';

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

/** Units by their place in the plan instead of their teeth: nets are shared between mouths. */
export interface Names {
  /** `46 cleaner` as `u1 cleaner`. */
  readonly toNet: (label: string) => string;
  readonly fromNet: (label: string) => string;
}

/** The names of a case's units. */
export function namesOf(teeth: readonly string[]): Names {
  const swap = (pairs: ReadonlyMap<string, string>) => (label: string) => {
    const space = label.indexOf(' ');
    const other = space < 0 ? undefined : pairs.get(label.slice(0, space));
    return other === undefined ? label : `${other}${label.slice(space)}`;
  };
  return {
    toNet: swap(new Map(teeth.map((tooth, i) => [tooth, unitName(i)]))),
    fromNet: swap(new Map(teeth.map((tooth, i) => [unitName(i), tooth]))),
  };
}

export const unitName = (i: number): string => `u${i + 1}`;

function moveOf(
  { event, transition }: Found,
  activities: readonly Activity[],
  { fromNet }: Names,
): Move {
  const activity = event === null ? undefined : activities[event];
  const named = transition?.label ?? null;
  const label = activity?.label ?? (named === null ? null : fromNet(named));
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
 * Aligns what happened with a plan's net, whose units go by `names`. What was cut off may end
 * `anywhere`: nothing is said of what would have come after.
 * @throws TooHard when a trace is so far from the plan that the search is given up.
 */
export function alignTrace(
  projected: Projected,
  activities: readonly Activity[],
  names: Names,
  end: TraceEnd = 'final',
): Alignment {
  const trace = activities.map(({ label }) => names.toNet(label));
  const found = align(projected, trace, end);
  // Of a trace that may end anywhere the worst explanation is that nothing of it fits.
  const least = end === 'anywhere' ? 0 : shortestOf(projected);
  return {
    cost: found.cost,
    fitness: fitnessOf(found.cost, activities.length + least),
    moves: found.moves.map((move) => moveOf(move, activities, names)),
  };
}
