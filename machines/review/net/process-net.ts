/**
 * An accepting net as a product of automata: every component holds one token, a transition moves
 * the tokens of the components it names. As a Petri net it is 1-safe and covered by its components.
 */
export interface Component {
  readonly name: string;
  readonly places: readonly string[];
  /** Index of the place marked at first, and of the one marked at the end. */
  readonly initial: number;
  readonly final: number;
}

/** What a transition does to one component; `from` and `to` are equal when it only reads. */
export interface Arc {
  readonly component: number;
  readonly from: number;
  readonly to: number;
}

export interface Transition {
  readonly id: string;
  /** Null for a silent transition. */
  readonly label: string | null;
  /** The component that owns the label comes first. */
  readonly arcs: readonly Arc[];
}

export interface ProcessNet {
  readonly components: readonly Component[];
  readonly transitions: readonly Transition[];
}

/** Index of the marked place of each component. */
export type Marking = readonly number[];

export const initialMarking = (net: ProcessNet): Marking =>
  net.components.map(({ initial }) => initial);
export const finalMarking = (net: ProcessNet): Marking => net.components.map(({ final }) => final);

export const enabled = (marking: Marking, { arcs }: Transition): boolean =>
  arcs.every(({ component, from }) => marking[component] === from);

/** The marking after a transition that is enabled in `marking`. */
export function fire(marking: Marking, { arcs }: Transition): Marking {
  const next = [...marking];
  for (const { component, to } of arcs) next[component] = to;
  return next;
}

/** A component under construction: its places come into being as they are named. */
export interface Part {
  readonly index: number;
}

/** One token's move while a net is built; a single place is a place that is read. */
export type Step = readonly [part: Part, from: string, to?: string];

/** Collects components and transitions; places are named by words. */
export class NetBuilder {
  readonly #components: { name: string; places: string[]; final: string }[] = [];
  readonly #transitions: Transition[] = [];

  /** A component with the place marked at first and the one marked at the end. */
  part(name: string, initial: string, final: string): Part {
    this.#components.push({ name, places: [initial], final });
    return { index: this.#components.length - 1 };
  }

  #arc([part, from, to = from]: Step): Arc {
    const { index } = part;
    return { component: index, from: this.#place(index, from), to: this.#place(index, to) };
  }

  #place(component: number, name: string): number {
    const places = this.#components[component]?.places ?? [];
    const found = places.indexOf(name);
    return found >= 0 ? found : places.push(name) - 1;
  }

  /** Whether a component has a place of this name by now. */
  has(part: Part, place: string): boolean {
    return this.#components[part.index]?.places.includes(place) ?? false;
  }

  /** Adds a transition; the first step's component owns the label. */
  add(label: string | null, ...steps: readonly Step[]): void {
    const id = `t${this.#transitions.length + 1}`;
    this.#transitions.push({ id, label, arcs: steps.map((step) => this.#arc(step)) });
  }

  /** Places a component's token can come to, as far as the components let each other. */
  #reachable(): readonly ReadonlySet<number>[] {
    const reached = this.#components.map(() => new Set([0]));
    const gone = new Set<Transition>();
    for (let before = -1; before < gone.size;) {
      before = gone.size;
      for (const transition of this.#transitions) {
        const { arcs } = transition;
        if (gone.has(transition)) continue;
        if (!arcs.every(({ component, from }) => reached[component]?.has(from) === true)) continue;
        gone.add(transition);
        for (const { component, to } of arcs) reached[component]?.add(to);
      }
    }
    return reached;
  }

  /**
   * The net, without the places and transitions that nothing leads to. Its transitions stand by
   * `rank`, the likeliest to be gone first: an alignment that has a choice takes them in this order.
   * @throws Error when nothing leads to a component's last place.
   */
  build(rank: (label: string | null) => number = () => 0): ProcessNet {
    const reached = this.#reachable();
    const ranks = new Map(this.#transitions.map(({ label }) => [label, rank(label)]));
    const kept = reached.map((places) => [...places].toSorted((a, b) => a - b));
    const components = this.#components.map(({ name, places, final }, index): Component => {
      const mine = kept[index] ?? [];
      const last = mine.indexOf(places.indexOf(final));
      if (last < 0) throw new Error(`Nothing leads to the end of ${name}, ${final}.`);
      return { name, places: mine.map((at) => places[at] ?? ''), initial: 0, final: last };
    });
    const transitions = this.#transitions
      .filter(({ arcs }) =>
        arcs.every(({ component, from }) => reached[component]?.has(from) === true),
      )
      .toSorted((one, other) => (ranks.get(one.label) ?? 0) - (ranks.get(other.label) ?? 0))
      .map(({ label, arcs }, at): Transition => {
        const moved = arcs.map(({ component, from, to }): Arc => {
          const mine = kept[component] ?? [];
          return { component, from: mine.indexOf(from), to: mine.indexOf(to) };
        });
        return { id: `t${at + 1}`, label, arcs: moved };
      });
    return { components, transitions };
  }
}
