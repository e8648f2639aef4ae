import { enabled, finalMarking, fire, initialMarking } from '../net/process-net.ts';
import type { Marking, ProcessNet, Transition } from '../net/process-net.ts';
import { mergeUnits } from '../net/merge.ts';
import { alignByUnit } from './by-unit.ts';
import { TooHard } from './found.ts';
import type { Alignment, Found } from './found.ts';
import { boundAt, boundOf, changeOf, project } from './heuristic.ts';
import type { Bound, Projected, TraceEnd } from './heuristic.ts';

interface Node {
  readonly marking: Marking;
  /** Events consumed. */
  readonly i: number;
  readonly g: number;
  /** Least cost still to come. */
  readonly h: number;
  readonly before: Node | null;
  readonly move: Found | null;
}

/** Nodes by what they cost in the end at least; the last put in of the least comes out first. */
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

  /** The bucket the last node came from. */
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

/** A net's transitions as the search asks for them. */
interface Roads {
  /** By a component and place they take a token from: few are looked at in a marking. */
  readonly from: readonly (readonly (readonly Ranked[])[])[];
  readonly labelled: ReadonlyMap<string, readonly Transition[]>;
  readonly goal: string;
}

const known = new WeakMap<ProcessNet, Roads>();

function roadsOf(net: ProcessNet): Roads {
  const before = known.get(net);
  if (before !== undefined) return before;
  const from = net.components.map(({ places }) => places.map((): Ranked[] => []));
  const labelled = new Map<string, Transition[]>();
  for (const [rank, transition] of net.transitions.entries()) {
    const { label, arcs } = transition;
    const [first] = arcs;
    if (first !== undefined) from[first.component]?.[first.from]?.push({ transition, rank });
    if (label === null) continue;
    const same = labelled.get(label);
    if (same === undefined) labelled.set(label, [transition]);
    else same.push(transition);
  }
  const roads = { from, labelled, goal: keyOf(finalMarking(net)) };
  known.set(net, roads);
  return roads;
}

/** Transitions enabled in a marking, the likeliest first. */
const readyIn = (marking: Marking, { from }: Roads): readonly Transition[] =>
  marking
    .flatMap((place, component) => from[component]?.[place] ?? [])
    .filter(({ transition }) => enabled(marking, transition))
    .toSorted((one, other) => one.rank - other.rank)
    .map(({ transition }) => transition);

/** The search over one trace; what it holds dies with it. */
class Search {
  readonly #trace: readonly string[];
  readonly #roads: Roads;
  readonly #bound: Bound;
  readonly #best: readonly Map<string, number>[];
  readonly #open = new Buckets();
  readonly #end: TraceEnd;

  constructor(projected: Projected, trace: readonly string[], end: TraceEnd) {
    this.#trace = trace;
    this.#end = end;
    this.#roads = roadsOf(projected.net);
    this.#bound = boundOf(projected, trace, end);
    this.#best = Array.from({ length: trace.length + 1 }, () => new Map<string, number>());
    const marking = initialMarking(projected.net);
    const h = boundAt(this.#bound, marking, 0);
    if (h < Number.POSITIVE_INFINITY)
      this.#reach({ marking, i: 0, g: 0, h, before: null, move: null });
  }

  /** Keeps a node unless its marking was reached as cheaply before. */
  #reach(node: Node): void {
    const key = keyOf(node.marking);
    const best = this.#best[node.i];
    const before = best?.get(key);
    if (before !== undefined && before <= node.g) return;
    best?.set(key, node.g);
    this.#open.put(node.g + node.h, node);
  }

  /** The moves from a node, the likeliest first: both together, the net alone, the record alone. */
  #from(node: Node): { h: number; cost: number; i: number; move: Found }[] {
    const { marking, i, h } = node;
    const event = this.#trace[i];
    const found: { h: number; cost: number; i: number; move: Found }[] = [];
    const both = event === undefined ? [] : (this.#roads.labelled.get(event) ?? []);
    for (const transition of both) {
      if (!enabled(marking, transition)) continue;
      const rest = boundAt(this.#bound, fire(marking, transition), i + 1);
      found.push({ h: rest, cost: 0, i: i + 1, move: { event: i, transition } });
    }
    for (const transition of readyIn(marking, this.#roads)) {
      const rest = h + changeOf(this.#bound, transition, i);
      const cost = transition.label === null ? 0 : 1;
      found.push({ h: rest, cost, i, move: { event: null, transition } });
    }
    if (event !== undefined) {
      const rest = boundAt(this.#bound, marking, i + 1);
      found.push({ h: rest, cost: 1, i: i + 1, move: { event: i, transition: null } });
    }
    return found;
  }

  /**
   * Goes on from a node by the moves that cost `f` in the end; the dearer ones wait with the node
   * itself, so that they are not even made where the cheapest way is found first (partial expansion:
   * Yoshizumi T, Miura T, Ishida T. AAAI 2000:923-929, from memory).
   */
  #expand(node: Node, f: number): void {
    const { marking, g } = node;
    let later = Number.POSITIVE_INFINITY;
    for (const { h, cost, i, move } of this.#from(node).toReversed()) {
      const end = g + cost + h;
      if (end > f) later = Math.min(later, end);
      if (end !== f) continue;
      const next = move.transition === null ? marking : fire(marking, move.transition);
      this.#reach({ marking: next, i, g: g + cost, h, before: node, move });
    }
    // Put below what was found now: of equal cost the search goes on where it is.
    if (later < Number.POSITIVE_INFINITY) this.#open.put(later, node);
  }

  run(most: number): Alignment {
    let expanded = 0;
    for (let node = this.#open.take(); node !== null; node = this.#open.take()) {
      const { marking, i, g } = node;
      if (this.#best[i]?.get(keyOf(marking)) !== g) continue;
      const there = this.#end === 'anywhere' || keyOf(marking) === this.#roads.goal;
      if (i === this.#trace.length && there) {
        return { cost: g, moves: movesTo(node), expanded };
      }
      expanded += 1;
      if (expanded > most) break;
      this.#expand(node, this.#open.least);
    }
    throw new TooHard(this.#open.least);
  }
}

/** Past so many markings the units are taken whole, one by one where the net allows that. */
const EASY = 1500;
/** Past so many more the search is given up: a record that far from its plan is none of it. */
const MOST = 300_000;

const merged = new WeakMap<ProcessNet, Projected>();

function mergedOf(net: ProcessNet): Projected {
  const before = merged.get(net);
  if (before !== undefined) return before;
  const made = project(mergeUnits(net));
  merged.set(net, made);
  return made;
}

/**
 * The cheapest explanation of a trace by a net: A* over the synchronous product (van der Aalst W,
 * Adriansyah A, van Dongen B. WIREs Data Mining Knowl Discov 2012;2:182-192). An event without a
 * transition costs 1, a labelled transition without an event 1, all else nothing. `end` says whether
 * the trace has to lead to the net's end; a net that is sound can get there from anywhere.
 * @throws TooHard when it is given up.
 */
export function align(
  projected: Projected,
  trace: readonly string[],
  end: TraceEnd = 'final',
): Alignment {
  try {
    return new Search(projected, trace, end).run(EASY);
  } catch (error) {
    if (!(error instanceof TooHard)) throw error;
    return (
      alignByUnit(projected.net, trace, end) ??
      new Search(mergedOf(projected.net), trace, end).run(MOST)
    );
  }
}
