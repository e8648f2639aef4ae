import { enabled, finalMarking, fire, initialMarking } from '../net/process-net.ts';
import type { Marking, ProcessNet, Transition } from '../net/process-net.ts';
import { boundAt, boundOf } from './heuristic.ts';
import type { Projected } from './heuristic.ts';

/** A move found: an event of the trace, a transition, or both at once. */
export interface Found {
  readonly event: number | null;
  readonly transition: Transition | null;
}

export interface Alignment {
  readonly cost: number;
  readonly moves: readonly Found[];
  /** Markings looked at: how hard it was. */
  readonly expanded: number;
}

/** The search was given up; the cost is at least `least`. */
export class TooHard extends Error {
  override readonly name = 'TooHard';
  readonly least: number;

  constructor(least: number) {
    super(`The alignment costs at least ${least}; no more was worked out.`);
    this.least = least;
  }
}

interface Node {
  readonly marking: Marking;
  /** Events consumed. */
  readonly i: number;
  readonly g: number;
  readonly before: Node | null;
  readonly move: Found | null;
}

/** Nodes by their bound; the last put in of the least bound comes out first. */
class Buckets {
  readonly #buckets: Node[][] = [];
  #least = 0;

  put(f: number, node: Node): void {
    (this.#buckets[f] ??= []).push(node);
    this.#least = Math.min(this.#least, f);
  }

  take(): Node | null {
    for (; this.#least < this.#buckets.length; this.#least += 1) {
      const node = this.#buckets[this.#least]?.pop();
      if (node !== undefined) return node;
    }
    return null;
  }

  get least(): number {
    return this.#least;
  }
}

const keyOf = (marking: Marking): string => String.fromCharCode(...marking);

function movesTo(node: Node): readonly Found[] {
  const moves: Found[] = [];
  for (let at: Node | null = node; at !== null; at = at.before) {
    if (at.move !== null) moves.push(at.move);
  }
  return moves.toReversed();
}

interface Ranked {
  readonly transition: Transition;
  readonly rank: number;
}

/** Transitions by a component and place they take a token from: few are looked at in a marking. */
function departures(net: ProcessNet): readonly (readonly (readonly Ranked[])[])[] {
  const from = net.components.map(({ places }) => places.map((): Ranked[] => []));
  for (const [rank, transition] of net.transitions.entries()) {
    const first = transition.arcs[0];
    if (first !== undefined) from[first.component]?.[first.from]?.push({ transition, rank });
  }
  return from;
}

/**
 * The cheapest explanation of a trace by a net: A* over the synchronous product (van der Aalst W,
 * Adriansyah A, van Dongen B. WIREs Data Mining Knowl Discov 2012;2:182-192). An event without a
 * transition costs 1, a labelled transition without an event 1, all else nothing.
 * @throws TooHard after `most` markings.
 */
export function align(projected: Projected, trace: readonly string[], most = 2_000_000): Alignment {
  const { net } = projected;
  const bound = boundOf(projected, trace);
  const labelled = new Map<string | null, Transition[]>();
  for (const transition of net.transitions) {
    const same = labelled.get(transition.label);
    if (same === undefined) labelled.set(transition.label, [transition]);
    else same.push(transition);
  }
  const from = departures(net);
  const goal = finalMarking(net).join();
  const best = Array.from({ length: trace.length + 1 }, () => new Map<string, number>());
  const open = new Buckets();
  const reach = (
    marking: Marking,
    i: number,
    g: number,
    before: Node | null,
    move: Found | null,
  ) => {
    const rest = boundAt(bound, marking, i);
    if (rest === Number.POSITIVE_INFINITY) return [];
    const key = keyOf(marking);
    const known = best[i]?.get(key);
    if (known !== undefined && known <= g) return [];
    best[i]?.set(key, g);
    return [{ f: g + rest, node: { marking, i, g, before, move } }];
  };
  /** What can follow, the likeliest first: both together, the net alone, the record alone. */
  const follow = (node: Node): readonly { readonly f: number; readonly node: Node }[] => {
    const { marking, i, g } = node;
    const both = i < trace.length ? (labelled.get(trace[i] ?? null) ?? []) : [];
    const ready = marking
      .flatMap((place, component) => from[component]?.[place] ?? [])
      .filter(({ transition }) => enabled(marking, transition))
      .toSorted((one, other) => one.rank - other.rank);
    return [
      ...both
        .filter((transition) => enabled(marking, transition))
        .flatMap((transition) =>
          reach(fire(marking, transition), i + 1, g, node, { event: i, transition }),
        ),
      ...ready.flatMap(({ transition }) => {
        const cost = transition.label === null ? 0 : 1;
        return reach(fire(marking, transition), i, g + cost, node, { event: null, transition });
      }),
      ...(i < trace.length
        ? reach(marking, i + 1, g + 1, node, { event: i, transition: null })
        : []),
    ];
  };
  const put = (found: ReturnType<typeof follow>): void => {
    for (const { f, node } of found.toReversed()) open.put(f, node);
  };
  put(reach(initialMarking(net), 0, 0, null, null));
  let expanded = 0;
  for (let node = open.take(); node !== null; node = open.take()) {
    const { marking, i, g } = node;
    if (best[i]?.get(keyOf(marking)) !== g) continue;
    if (i === trace.length && marking.join() === goal) {
      return { cost: g, moves: movesTo(node), expanded };
    }
    expanded += 1;
    if (expanded > most) throw new TooHard(open.least);
    put(follow(node));
  }
  throw new TooHard(open.least);
}
