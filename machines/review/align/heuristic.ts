import type { ProcessNet, Transition } from '../net/process-net.ts';
import { type Lead, type Leads, relax } from './relax.ts';

/**
 * Every label's cost is charged to one component, so that the components' bounds may be added: one
 * that all its transitions touch, or an event could pass it by and cost nothing. Where there is none
 * the label's cost is left out.
 */
function ownersOf(net: ProcessNet): ReadonlyMap<string, number> {
  const touched = new Map<string, readonly number[]>();
  for (const { label, arcs } of net.transitions) {
    if (label === null) continue;
    const mine = arcs.map(({ component }) => component);
    const before = touched.get(label) ?? mine;
    touched.set(label, before.length === 0 ? before : before.filter((one) => mine.includes(one)));
  }
  return new Map(
    [...touched].flatMap(([label, [owner]]) =>
      owner === undefined ? [] : [[label, owner] as const],
    ),
  );
}

interface Move {
  readonly from: number;
  readonly to: number;
}

/** What one component sees of the net. */
interface Projection {
  readonly size: number;
  readonly final: number;
  /** For each place, what leads there. */
  readonly leads: Leads;
  readonly synchronous: ReadonlyMap<string, readonly Move[]>;
  readonly owned: ReadonlySet<string>;
}

/** A net with what the bound needs; made once for a net, used for any trace. */
export interface Projected {
  readonly net: ProcessNet;
  readonly projections: readonly Projection[];
}

/** A component under projection: the cheapest move from each place to each, and what events move. */
class Sketch {
  readonly #size: number;
  readonly #leads = new Map<number, Lead>();
  readonly synchronous = new Map<string, Move[]>();
  readonly owned = new Set<string>();
  readonly #known = new Set<string>();

  constructor(size: number) {
    this.#size = size;
  }

  add(label: string | null, { from, to }: Move, owns: boolean): void {
    const at = to * this.#size + from;
    const cost = owns ? 1 : 0;
    const before = this.#leads.get(at);
    if (from !== to && (before === undefined || before.cost > cost)) {
      this.#leads.set(at, { from, cost });
    }
    if (label === null) return;
    if (owns) this.owned.add(label);
    const key = `${from} ${to} ${label}`;
    if (this.#known.has(key)) return;
    this.#known.add(key);
    const same = this.synchronous.get(label);
    if (same === undefined) this.synchronous.set(label, [{ from, to }]);
    else same.push({ from, to });
  }

  get leads(): Projection['leads'] {
    const leads = Array.from({ length: this.#size }, (): Lead[] => []);
    for (const [at, lead] of this.#leads) leads[Math.floor(at / this.#size)]?.push(lead);
    return leads;
  }
}

/** Projects a net onto its components. */
export function project(net: ProcessNet): Projected {
  const owners = ownersOf(net);
  const sketches = net.components.map(({ places }) => new Sketch(places.length));
  for (const { label, arcs } of net.transitions) {
    const owner = label === null ? null : owners.get(label);
    for (const arc of arcs) {
      sketches[arc.component]?.add(label, arc, arc.component === owner);
    }
  }
  const projections = net.components.map(({ places, final }, c): Projection => {
    const sketch = sketches[c] ?? new Sketch(places.length);
    const { leads, synchronous, owned } = sketch;
    return { size: places.length, final, leads, synchronous, owned };
  });
  return { net, projections };
}

/** Where a trace leaves the net: at its end, or, for one that was cut off, wherever it has come to. */
export type TraceEnd = 'final' | 'anywhere';

/** Least cost to go by component; a table for each: rows by events left, columns by place. */
export interface Bound {
  /** For each component, the row that holds after the first `i` events. */
  readonly rows: readonly Uint32Array[];
  readonly tables: readonly Float64Array[];
  readonly sizes: readonly number[];
}

function tableOf(projection: Projection, events: readonly string[], end: TraceEnd): Float64Array {
  const { size, final, leads, synchronous, owned } = projection;
  const count = events.length;
  const table = new Float64Array((count + 1) * size).fill(Number.POSITIVE_INFINITY);
  if (end === 'anywhere') table.fill(0, count * size);
  else table[count * size + final] = 0;
  relax(table.subarray(count * size), leads, Infinity);
  for (let k = count - 1; k >= 0; k -= 1) {
    const label = events[k] ?? '';
    const log = owned.has(label) ? 1 : 0;
    const row = table.subarray(k * size, (k + 1) * size);
    const after = table.subarray((k + 1) * size, (k + 2) * size);
    for (let s = 0; s < size; s += 1) row[s] = log + (after[s] ?? 0);
    for (const { from, to } of synchronous.get(label) ?? []) {
      row[from] = Math.min(row[from] ?? 0, after[to] ?? 0);
    }
    relax(row, leads, Infinity);
  }
  return table;
}

/**
 * A lower bound of the cost still to come, for every place of a trace: each component alone aligns
 * what it sees, at the cost of the labels it owns. Costs are partitioned, so the sum never exceeds
 * the true cost (the idea of additive projections: Katz M, Domshlak C. Artif Intell
 * 2010;174:767-798, from memory).
 */
export function boundOf(
  { projections }: Projected,
  trace: readonly string[],
  end: TraceEnd = 'final',
): Bound {
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
    tables.push(tableOf(projection, seen, end));
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
