import { groupsOf, touchesOf, walk } from '../net/merge.ts';
import type { Product } from '../net/merge.ts';
import type { Arc, ProcessNet, Transition } from '../net/process-net.ts';

/** A move of a unit that has been made one automaton; `needs` are the case's parts it waits for. */
export interface UnitMove {
  readonly transition: Transition;
  readonly from: number;
  readonly to: number;
  readonly needs: readonly number[];
}

/** One unit, made one automaton. */
export interface Unit {
  readonly size: number;
  readonly initial: number;
  readonly final: number;
  /** In the order of the net's transitions, the likeliest first. */
  readonly moves: readonly UnitMove[];
  /** Where the closers find it done; it never leaves these places again. */
  readonly done: ReadonlySet<number>;
}

/** A part of the case that is gone through once: by an event or without one. */
export interface Once {
  readonly component: number;
  readonly label: string;
  readonly transition: Transition;
  /** Parts that have to be gone through before. */
  readonly needs: readonly number[];
  /** What takes another event of the same label once it is gone through; null where nothing does. */
  readonly again: Transition | null;
}

/**
 * A net whose units meet only in parts of the case that are each gone through once: the openers,
 * which units wait for, and the closers, which wait until every unit is done. Given when those
 * are gone through, every unit can be aligned by itself.
 */
export interface Factored {
  readonly units: readonly Unit[];
  /** Each after those it waits for. */
  readonly openers: readonly Once[];
  readonly closers: readonly Once[];
  /** The unit that has this label. */
  readonly owner: ReadonlyMap<string, number>;
}

/** More openers than this would give too many orders to go through. */
const MOST_OPENERS = 10;

/** A transition by what it touches. */
interface Sorted {
  readonly transition: Transition;
  readonly at: number;
  readonly hub: readonly Arc[];
  readonly units: readonly number[];
}

const moving = ({ from, to }: Arc): boolean => from !== to;

/** Openers so that each comes after those it waits for; null where they wait for one another. */
function ordered(openers: readonly Once[]): readonly Once[] | null {
  const done: Once[] = [];
  let left = [...openers];
  while (left.length > 0) {
    const ready = left.filter(({ needs }) =>
      needs.every((need) => done.some(({ component }) => component === need)),
    );
    if (ready.length === 0) return null;
    done.push(...ready);
    left = left.filter((one) => !ready.includes(one));
  }
  return done;
}

/** Parts gone through once, by their component; null where one moves otherwise. */
function partsOf(sorted: readonly Sorted[], hubs: readonly number[]) {
  const parts = new Map<number, Once & { readonly closes: boolean }>();
  for (const component of hubs) {
    const mine = sorted.filter(({ hub }) => hub.some((arc) => arc.component === component));
    const movers = mine.filter(({ hub }) =>
      hub.some((arc) => moving(arc) && arc.component === component),
    );
    const [mover] = movers;
    const label = mover?.transition.label ?? null;
    if (mover === undefined || movers.length !== 1 || label === null) return null;
    if (mover.hub.filter(moving).length !== 1) return null;
    const again = mine.find(
      ({ transition, hub, units }) =>
        units.length === 0 && transition.label === label && hub.length === 1 && !hub.some(moving),
    );
    const needs = mover.hub.flatMap((arc) => (moving(arc) ? [] : [arc.component]));
    parts.set(component, {
      component,
      label,
      transition: mover.transition,
      needs,
      again: again?.transition ?? null,
      closes: mover.units.length > 0,
    });
  }
  return parts;
}

/** Where the closers find a unit done; null unless all look for the same, the end is there, and nothing leaves it. */
function doneOf(
  closers: readonly ReadonlySet<number>[],
  moves: readonly UnitMove[],
  final: number,
): ReadonlySet<number> | null {
  const [first, ...others] = closers;
  if (first === undefined) return new Set();
  const same = (other: ReadonlySet<number>): boolean =>
    other.size === first.size && [...first].every((place) => other.has(place));
  if (!others.every(same)) return null;
  const stays = moves.every(({ from, to }) => !first.has(from) || first.has(to));
  return stays && first.has(final) ? first : null;
}

function unitOf(
  { states }: Product,
  moves: ReadonlyMap<number, readonly Arc[]>,
  sorted: readonly Sorted[],
  final: number,
): Unit | null {
  const own: UnitMove[] = [];
  const found: ReadonlySet<number>[] = [];
  for (const { transition, at, hub, units } of sorted) {
    const arcs = moves.get(at) ?? [];
    if (hub.some(moving)) {
      if (units.length === 0) continue;
      if (arcs.length === 0 || arcs.some(moving)) return null;
      found.push(new Set(arcs.map(({ from }) => from)));
      continue;
    }
    const needs = hub.map(({ component }) => component);
    for (const { from, to } of arcs) own.push({ transition, from, to, needs });
  }
  const done = doneOf(found, own, final);
  return done === null ? null : { size: states.length, initial: 0, final, moves: own, done };
}

/** Splits a net into its units and what they meet in; null where it has not that shape. */
export function factor(net: ProcessNet): Factored | null {
  const groups = groupsOf(net);
  const single = ({ members: [c = 0, ...more] }: (typeof groups)[number]): boolean => {
    const { name = ' ', places = [], initial, final } = net.components[c] ?? {};
    const twofold = places.length === 2 && initial === 0 && final === 1;
    return more.length === 0 && !name.includes(' ') && twofold;
  };
  const hubs = groups.flatMap((group) => (single(group) ? group.members : []));
  const unitGroups = groups.flatMap((group, g) => (single(group) ? [] : [g]));
  const touches = touchesOf(net, groups);
  const sorted = net.transitions.map((transition, at): Sorted => {
    const hub = transition.arcs.filter(({ component }) => hubs.includes(component));
    const units = [...(touches[at]?.keys() ?? [])].filter((g) => unitGroups.includes(g));
    return { transition, at, hub, units };
  });
  // A part is waited for until it is gone through, never the other way round.
  const plain = sorted.every(({ hub, units }) => {
    if (hub.some((arc) => (moving(arc) ? arc.from !== 0 : arc.from !== 1))) return false;
    return hub.some(moving) || units.length === 1 || (units.length === 0 && hub.length === 1);
  });
  if (!plain) return null;
  const parts = partsOf(sorted, hubs);
  if (parts === null) return null;
  const once = [...parts.values()];
  const closers = once.filter(({ closes }) => closes);
  const openers = ordered(once.filter(({ closes }) => !closes));
  if (openers === null || openers.length > MOST_OPENERS) return null;
  const closing = new Set(closers.map(({ component }) => component));
  const waits = sorted.some(({ hub }) =>
    hub.some((arc) => closing.has(arc.component) && !moving(arc) && hub.length > 1),
  );
  const unitWaits = sorted.some(
    ({ hub, units }) =>
      units.length > 0 && !hub.some(moving) && hub.some((arc) => closing.has(arc.component)),
  );
  const everyUnit = closers.every(({ transition }) => {
    const at = net.transitions.indexOf(transition);
    return unitGroups.every((g) => touches[at]?.has(g) === true);
  });
  const bare = closers.every(({ needs }) => needs.length === 0);
  if (waits || unitWaits || !everyUnit || !bare) return null;
  const owner = ownersOf(sorted, unitGroups, once);
  if (owner === null) return null;
  const units: Unit[] = [];
  for (const g of unitGroups) {
    const group = groups[g];
    if (group === undefined) return null;
    const { product, moves } = walk(group, g, net, touches);
    const final = product.indexOf(group.members.map((c) => net.components[c]?.final ?? 0));
    const unit = unitOf(product, moves, sorted, final);
    if (unit === null) return null;
    units.push(unit);
  }
  return { units, openers, closers, owner };
}

/** Which unit has a label; null where one belongs to more than one unit or part. */
function ownersOf(
  sorted: readonly Sorted[],
  unitGroups: readonly number[],
  once: readonly Once[],
): ReadonlyMap<string, number> | null {
  const owner = new Map<string, number>();
  const parts = new Map(once.map(({ label, component }) => [label, component]));
  if (parts.size !== once.length) return null;
  for (const { transition, hub, units } of sorted) {
    const { label } = transition;
    if (label === null) {
      if (units.length === 0) return null;
      continue;
    }
    const part = parts.get(label);
    if (part !== undefined) {
      if (!hub.some(({ component }) => component === part)) return null;
      if (!hub.some(moving) && units.length > 0) return null;
      continue;
    }
    const [g = -1] = units;
    const unit = unitGroups.indexOf(g);
    if (unit < 0 || (owner.get(label) ?? unit) !== unit) return null;
    owner.set(label, unit);
  }
  return owner;
}
