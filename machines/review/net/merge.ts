import type { Arc, Component, ProcessNet, Transition } from './process-net.ts';

/** Components that are made one: their places are what they can stand at together. */
export interface Group {
  readonly name: string;
  readonly members: readonly number[];
}

/** The first word of a component's name is its unit; those of one word stay alone. */
export function groupsOf({ components }: ProcessNet): readonly Group[] {
  const groups = new Map<string, number[]>();
  for (const [c, { name }] of components.entries()) {
    const space = name.indexOf(' ');
    const unit = space < 0 ? name : name.slice(0, space);
    groups.set(unit, [...(groups.get(unit) ?? []), c]);
  }
  return [...groups].map(([name, members]) => ({ name, members }));
}

/** What a transition does to each group it touches. */
export type Touch = ReadonlyMap<number, readonly Arc[]>;

/** The states of a group that can be reached, by their number. */
export class Product {
  readonly states: (readonly number[])[] = [];
  readonly #known = new Map<string, number>();

  indexOf(state: readonly number[]): number {
    const key = state.join();
    const found = this.#known.get(key);
    if (found !== undefined) return found;
    this.#known.set(key, this.states.length);
    this.states.push(state);
    return this.states.length - 1;
  }
}

/** All moves of one group: from each of its states by each transition that its members allow. */
export function walk(
  group: Group,
  g: number,
  net: ProcessNet,
  touches: readonly Touch[],
): { readonly product: Product; readonly moves: ReadonlyMap<number, readonly Arc[]> } {
  const product = new Product();
  product.indexOf(group.members.map((c) => net.components[c]?.initial ?? 0));
  const moves = new Map<number, Arc[]>();
  const mine = touches.flatMap((touch, t) => {
    const arcs = touch.get(g);
    return arcs === undefined ? [] : [{ t, arcs }];
  });
  for (let from = 0; from < product.states.length; from += 1) {
    const state = product.states[from] ?? [];
    for (const { t, arcs } of mine) {
      if (!arcs.every((arc) => state[group.members.indexOf(arc.component)] === arc.from)) continue;
      const next = [...state];
      for (const arc of arcs) next[group.members.indexOf(arc.component)] = arc.to;
      const arc = { component: g, from, to: product.indexOf(next) };
      const before = moves.get(t);
      if (before === undefined) moves.set(t, [arc]);
      else before.push(arc);
    }
  }
  return { product, moves };
}

/** What each transition does to each group. */
export function touchesOf(net: ProcessNet, groups: readonly Group[]): readonly Touch[] {
  const home = new Map(groups.flatMap(({ members }, g) => members.map((c) => [c, g] as const)));
  return net.transitions.map(({ arcs }): Touch => {
    const touch = new Map<number, Arc[]>();
    for (const arc of arcs) {
      const g = home.get(arc.component) ?? 0;
      touch.set(g, [...(touch.get(g) ?? []), arc]);
    }
    return touch;
  });
}

/** Every choice of one arc from each list. */
const choices = (lists: readonly (readonly Arc[])[]): readonly (readonly Arc[])[] =>
  lists.reduce<readonly (readonly Arc[])[]>(
    (all, list) => all.flatMap((some) => list.map((arc) => [...some, arc])),
    [[]],
  );

/**
 * The same net with each unit's components made one. It says the same, transition for transition;
 * it is larger, and a bound made of its components knows what one surface asks of another.
 */
export function mergeUnits(net: ProcessNet): ProcessNet {
  const groups = groupsOf(net);
  const touches = touchesOf(net, groups);
  const walked = groups.map((group, g) => walk(group, g, net, touches));
  const components = groups.map(({ name, members }, g): Component => {
    const { product } = walked[g] ?? { product: new Product() };
    const final = product.indexOf(members.map((c) => net.components[c]?.final ?? 0));
    const places = product.states.map((state) => state.join());
    return { name, places, initial: 0, final };
  });
  const transitions = net.transitions.flatMap(({ id, label }, t): Transition[] => {
    const lists = [...(touches[t]?.keys() ?? [])].map((g) => walked[g]?.moves.get(t) ?? []);
    return choices(lists).map((arcs) => ({ id, label, arcs }));
  });
  return { components, transitions };
}
