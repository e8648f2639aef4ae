import type { Found } from './found.ts';
import type { Unit, UnitMove } from './factor.ts';
import type { TraceEnd } from './heuristic.ts';
import { type Leads, relax } from './relax.ts';

/** When the parts that units meet in are gone through, in events read; infinite for never. */
export interface Times {
  /** By component: a unit's move that waits for it may go once so many events are read. */
  readonly opened: ReadonlyMap<number, number>;
  /** Every unit has to be done before the event of this number is read; null: only at the end. */
  readonly closing: number | null;
}

/** The events of one unit, with their places in the whole trace. */
export interface Seen {
  readonly events: readonly { readonly at: number; readonly label: string }[];
  readonly length: number;
}

const FAR = 0x3fffffff;

/** What a unit's moves are worth in one stretch of the trace, by the openers gone through. */
interface Phase {
  /** For each place, the cheapest moves without an event that lead there. */
  readonly leads: Leads;
  readonly moves: readonly UnitMove[];
  readonly labelled: ReadonlyMap<string, readonly UnitMove[]>;
}

function phaseOf(unit: Unit, may: (move: UnitMove) => boolean): Phase {
  const leads = Array.from({ length: unit.size }, (): Map<number, 0 | 1> => new Map());
  const labelled = new Map<string, UnitMove[]>();
  const moves = unit.moves.filter(may);
  for (const move of moves) {
    const { from, to, transition } = move;
    const cost = transition.label === null ? 0 : 1;
    const into = leads[to];
    if (from !== to && (into?.get(from) ?? 2) > cost) into?.set(from, cost);
    if (transition.label === null) continue;
    const same = labelled.get(transition.label);
    if (same === undefined) labelled.set(transition.label, [move]);
    else same.push(move);
  }
  return {
    leads: leads.map((into) => [...into].map(([from, cost]) => ({ from, cost }))),
    moves,
    labelled,
  };
}

/** One stretch of a unit's way: until an event of its own, a change of phase, the closing, or the end. */
interface Stretch {
  /** Events read when it begins. */
  readonly at: number;
  readonly phase: Phase;
  /** What ends it. */
  readonly ends:
    | { readonly by: 'event'; readonly label: string }
    | { readonly by: 'opening' | 'closing' | 'end' };
}

/** Aligns one unit by itself, for any times; what different times share is made once. */
export class UnitTable {
  readonly #unit: Unit;
  readonly #seen: Seen;
  readonly #end: TraceEnd;
  readonly #phases = new Map<string, Phase>();
  readonly #costs = new Map<string, number>();

  constructor(unit: Unit, seen: Seen, end: TraceEnd) {
    this.#unit = unit;
    this.#seen = seen;
    this.#end = end;
  }

  #phase(opened: Times['opened'], at: number): Phase {
    const shut = [...opened].flatMap(([component, when]) => (when > at ? [component] : []));
    const key = shut.join();
    const known = this.#phases.get(key);
    if (known !== undefined) return known;
    const made = phaseOf(this.#unit, ({ needs }) => !needs.some((need) => shut.includes(need)));
    this.#phases.set(key, made);
    return made;
  }

  #stretches({ opened, closing }: Times): readonly Stretch[] {
    const { events, length } = this.#seen;
    const openings = [...new Set(opened.values())].filter((at) => at > 0 && at <= length);
    const stops = [
      ...events.map(({ at, label }) => ({ at, order: 2, ends: { by: 'event', label } as const })),
      ...openings.map((at) => ({ at, order: 0, ends: { by: 'opening' } as const })),
      ...(closing === null ? [] : [{ at: closing, order: 1, ends: { by: 'closing' } as const }]),
      { at: length, order: 3, ends: { by: 'end' } as const },
    ].toSorted((one, other) => one.at - other.at || one.order - other.order);
    let from = 0;
    return stops.map(({ at, ends }): Stretch => {
      const stretch = { at: from, phase: this.#phase(opened, from), ends };
      from = ends.by === 'event' ? at + 1 : at;
      return stretch;
    });
  }

  /** The row of what is still to pay before a stretch ends, from the row after it. */
  #before({ ends, phase }: Stretch, after: Uint32Array): Uint32Array {
    const row = new Uint32Array(after);
    const { done } = this.#unit;
    if (ends.by === 'closing') {
      for (let place = 0; place < row.length; place += 1) if (!done.has(place)) row[place] = FAR;
    } else if (ends.by === 'event') {
      for (let place = 0; place < row.length; place += 1)
        row[place] = Math.min(FAR, (after[place] ?? FAR) + 1);
      for (const { from, to } of phase.labelled.get(ends.label) ?? [])
        row[from] = Math.min(row[from] ?? FAR, after[to] ?? FAR);
    }
    return row;
  }

  #last(): Uint32Array {
    const row = new Uint32Array(this.#unit.size);
    if (this.#end === 'final') row.fill(FAR)[this.#unit.final] = 0;
    return row;
  }

  /** Rows at the end of each stretch, before and after what ends it. */
  #rows(stretches: readonly Stretch[]): { before: Uint32Array; after: Uint32Array }[] {
    const rows: { before: Uint32Array; after: Uint32Array }[] = [];
    let after = this.#last();
    for (const stretch of stretches.toReversed()) {
      const before = this.#before(stretch, after);
      relax(before, stretch.phase.leads, FAR);
      rows.push({ before, after });
      after = before;
    }
    return rows.toReversed();
  }

  /** The least that this unit costs at these times; infinite where there is no way. */
  cost(times: Times): number {
    const key = `${[...times.opened.values()].join()} ${times.closing}`;
    const known = this.#costs.get(key);
    if (known !== undefined) return known;
    let row = this.#last();
    for (const stretch of this.#stretches(times).toReversed()) {
      row = this.#before(stretch, row);
      relax(row, stretch.phase.leads, FAR);
    }
    const least = row[this.#unit.initial] ?? FAR;
    const cost = least >= FAR ? Number.POSITIVE_INFINITY : least;
    this.#costs.set(key, cost);
    return cost;
  }

  /** The moves that cost so little, by the number of events read before them, in order. */
  moves(times: Times): ReadonlyMap<number, readonly Found[]> {
    const stretches = this.#stretches(times);
    const rows = this.#rows(stretches);
    const found = new Map<number, Found[]>();
    let place = this.#unit.initial;
    for (const [k, { phase, ends, at }] of stretches.entries()) {
      const { before, after } = rows[k] ?? { before: this.#last(), after: this.#last() };
      const event = this.#eventOf(stretches, k);
      const { way, leave } = this.#way({ place, before, after, phase, ends });
      const moves = way.map(({ transition }): Found => ({ event: null, transition }));
      found.set(at, [...(found.get(at) ?? []), ...moves]);
      if (event !== null) {
        const last = { event, transition: leave?.transition ?? null };
        found.set(event, [...(found.get(event) ?? []), last]);
      }
      place = leave?.to ?? way.at(-1)?.to ?? place;
    }
    return found;
  }

  /** Number of the event that ends a stretch; null when something else does. */
  #eventOf(stretches: readonly Stretch[], k: number): number | null {
    if (stretches[k]?.ends.by !== 'event') return null;
    const earlier = stretches.slice(0, k).filter(({ ends }) => ends.by === 'event').length;
    return this.#seen.events[earlier]?.at ?? null;
  }

  /** The fewest moves on the cheapest way from a place through a stretch, and the event's own. */
  #way(from: {
    readonly place: number;
    readonly before: Uint32Array;
    readonly after: Uint32Array;
    readonly phase: Phase;
    readonly ends: Stretch['ends'];
  }): { readonly way: readonly UnitMove[]; readonly leave: UnitMove | null } {
    const { before, after, phase, ends } = from;
    const came = new Map<number, { readonly at: number; readonly move: UnitMove } | null>([
      [from.place, null],
    ]);
    for (const place of came.keys()) {
      const left = before[place] ?? FAR;
      const both =
        ends.by === 'event'
          ? (phase.labelled.get(ends.label) ?? []).find(
              (move) => move.from === place && after[move.to] === left,
            )
          : undefined;
      const blocked = ends.by === 'closing' && !this.#unit.done.has(place);
      const cost = ends.by === 'event' ? 1 : 0;
      if (both !== undefined || (!blocked && (after[place] ?? FAR) + cost === left)) {
        const way: UnitMove[] = [];
        for (let step = came.get(place) ?? null; step; step = came.get(step.at) ?? null)
          way.push(step.move);
        return { way: way.toReversed(), leave: both ?? null };
      }
      for (const move of phase.moves) {
        if (move.from !== place || came.has(move.to)) continue;
        const pays = move.transition.label === null ? 0 : 1;
        if ((before[move.to] ?? FAR) + pays === left) came.set(move.to, { at: place, move });
      }
    }
    throw new Error('A way that was counted is not there.');
  }
}
