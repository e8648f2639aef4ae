import type { ProcessNet, Transition } from '../net/process-net.ts';

/** Every label's cost is charged to one component, so that the components' bounds may be added. */
function ownersOf(net: ProcessNet): ReadonlyMap<string, number> {
  const owners = new Map<string, number>();
  for (const { label, arcs } of net.transitions) {
    const first = arcs[0];
    if (label !== null && first !== undefined && !owners.has(label)) {
      owners.set(label, first.component);
    }
  }
  return owners;
}

interface Move {
  readonly from: number;
  readonly to: number;
}

/** What one component sees of the net. */
interface Projection {
  readonly size: number;
  readonly final: number;
  /** Least model cost from each place to each place. */
  readonly distances: Float64Array;
  readonly synchronous: ReadonlyMap<string, readonly Move[]>;
  readonly owned: ReadonlySet<string>;
}

/** A net with what the bound needs; made once for a net, used for any trace. */
export interface Projected {
  readonly net: ProcessNet;
  readonly projections: readonly Projection[];
}

function distancesOf(size: number, moves: readonly (Move & { readonly cost: number })[]) {
  const least = new Float64Array(size * size).fill(Number.POSITIVE_INFINITY);
  for (let s = 0; s < size; s += 1) least[s * size + s] = 0;
  for (const { from, to, cost } of moves) {
    const at = from * size + to;
    least[at] = Math.min(least[at] ?? cost, cost);
  }
  for (let via = 0; via < size; via += 1)
    for (let from = 0; from < size; from += 1) {
      const first = least[from * size + via] ?? 0;
      if (first === Number.POSITIVE_INFINITY) continue;
      for (let to = 0; to < size; to += 1) {
        const through = first + (least[via * size + to] ?? 0);
        if (through < (least[from * size + to] ?? 0)) least[from * size + to] = through;
      }
    }
  return least;
}

/** Projects a net onto its components. */
export function project(net: ProcessNet): Projected {
  const owners = ownersOf(net);
  const projections = net.components.map(({ places, final }, component): Projection => {
    const moves: (Move & { cost: number })[] = [];
    const synchronous = new Map<string, Move[]>();
    const owned = new Set<string>();
    for (const { label, arcs } of net.transitions) {
      const arc = arcs.find((one) => one.component === component);
      if (arc === undefined) continue;
      const owns = label !== null && owners.get(label) === component;
      if (arc.from !== arc.to) moves.push({ ...arc, cost: owns ? 1 : 0 });
      if (label === null) continue;
      if (owns) owned.add(label);
      const same = synchronous.get(label);
      if (same === undefined) synchronous.set(label, [arc]);
      else if (!same.some(({ from, to }) => from === arc.from && to === arc.to)) same.push(arc);
    }
    const distances = distancesOf(places.length, moves);
    return { size: places.length, final, distances, synchronous, owned };
  });
  return { net, projections };
}

/** Least cost to go by component; a table for each: rows by events left, columns by place. */
export interface Bound {
  /** For each component, the row that holds after the first `i` events. */
  readonly rows: readonly Uint32Array[];
  readonly tables: readonly Float64Array[];
  readonly sizes: readonly number[];
}

function tableOf(projection: Projection, events: readonly string[]): Float64Array {
  const { size, final, distances, synchronous, owned } = projection;
  const count = events.length;
  const table = new Float64Array((count + 1) * size);
  for (let s = 0; s < size; s += 1) table[count * size + s] = distances[s * size + final] ?? 0;
  const arrive = new Float64Array(size);
  for (let k = count - 1; k >= 0; k -= 1) {
    const label = events[k] ?? '';
    const log = owned.has(label) ? 1 : 0;
    const after = (k + 1) * size;
    for (let s = 0; s < size; s += 1) arrive[s] = log + (table[after + s] ?? 0);
    for (const { from, to } of synchronous.get(label) ?? []) {
      arrive[from] = Math.min(arrive[from] ?? 0, table[after + to] ?? 0);
    }
    for (let s = 0; s < size; s += 1) {
      let least = Number.POSITIVE_INFINITY;
      for (let to = 0; to < size; to += 1) {
        const cost = (distances[s * size + to] ?? 0) + (arrive[to] ?? 0);
        if (cost < least) least = cost;
      }
      table[k * size + s] = least;
    }
  }
  return table;
}

/**
 * A lower bound of the cost still to come, for every place of a trace: each component alone aligns
 * what it sees, at the cost of the labels it owns. Costs are partitioned, so the sum never exceeds
 * the true cost (the idea of additive projections: Katz M, Domshlak C. Artif Intell
 * 2010;174:767-798, from memory).
 */
export function boundOf({ projections }: Projected, trace: readonly string[]): Bound {
  const rows: Uint32Array[] = [];
  const tables: Float64Array[] = [];
  for (const projection of projections) {
    const seen: string[] = [];
    const row = new Uint32Array(trace.length + 1);
    for (const [i, label] of trace.entries()) {
      row[i] = seen.length;
      if (projection.synchronous.has(label)) seen.push(label);
    }
    row[trace.length] = seen.length;
    rows.push(row);
    tables.push(tableOf(projection, seen));
  }
  return { rows, tables, sizes: projections.map(({ size }) => size) };
}

/** The bound at a marking after the first `i` events; infinite when there is no way on. */
export function boundAt({ rows, tables, sizes }: Bound, marking: readonly number[], i: number) {
  let sum = 0;
  for (let c = 0; c < marking.length; c += 1) {
    const size = sizes[c] ?? 0;
    sum += tables[c]?.[(rows[c]?.[i] ?? 0) * size + (marking[c] ?? 0)] ?? 0;
  }
  return sum;
}

/** By how much the bound changes when a transition fires and the trace stays where it is. */
export function changeOf({ rows, tables, sizes }: Bound, { arcs }: Transition, i: number): number {
  let sum = 0;
  for (const { component, from, to } of arcs) {
    if (from === to) continue;
    const base = (rows[component]?.[i] ?? 0) * (sizes[component] ?? 0);
    const table = tables[component];
    sum += (table?.[base + to] ?? 0) - (table?.[base + from] ?? 0);
  }
  return sum;
}
