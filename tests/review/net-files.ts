/** Files of a net and a trace read back, and the least cost of explaining one by the other, the slow way. */

/** A place/transition net with weights of one. */
export interface FileNet {
  readonly initial: ReadonlyMap<string, number>;
  readonly final: ReadonlyMap<string, number>;
  readonly transitions: readonly {
    readonly label: string | null;
    readonly takes: readonly string[];
    readonly puts: readonly string[];
  }[];
}

const unescape = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');

/** Every element of this name with its attributes and what is inside; none is nested in one of its own. */
function elements(xml: string, name: string): { attributes: string; inside: string }[] {
  const pattern = new RegExp(`<${name}((?:\\s[^>]*?)?)(?:/>|>([\\s\\S]*?)</${name}>)`, 'g');
  return [...xml.matchAll(pattern)].map(([, attributes = '', inside = '']) => ({
    attributes,
    inside,
  }));
}

const attributeOf = (attributes: string, name: string): string =>
  unescape(new RegExp(`\\s${name}="([^"]*)"`).exec(attributes)?.[1] ?? '');
const textOf = (xml: string): string => unescape(/<text>([^<]*)<\/text>/.exec(xml)?.[1] ?? '');

export function readPnml(xml: string): FileNet {
  const page = elements(xml, 'page')[0]?.inside ?? '';
  const arcs = elements(page, 'arc').map(({ attributes }) => ({
    source: attributeOf(attributes, 'source'),
    target: attributeOf(attributes, 'target'),
  }));
  const initial = elements(page, 'place').flatMap(({ attributes, inside }) => {
    const marked = elements(inside, 'initialMarking')[0];
    return marked === undefined
      ? []
      : [[attributeOf(attributes, 'id'), Number(textOf(marked.inside))] as const];
  });
  const last = elements(xml, 'finalmarkings')[0]?.inside ?? '';
  const final = elements(last, 'place').map(
    ({ attributes, inside }) => [attributeOf(attributes, 'idref'), Number(textOf(inside))] as const,
  );
  const transitions = elements(page, 'transition').map(({ attributes, inside }) => {
    const id = attributeOf(attributes, 'id');
    const name = elements(inside, 'name')[0]?.inside ?? '';
    return {
      label: inside.includes('activity="$invisible$"') ? null : textOf(name),
      takes: arcs.filter(({ target }) => target === id).map(({ source }) => source),
      puts: arcs.filter(({ source }) => source === id).map(({ target }) => target),
    };
  });
  return { initial: new Map(initial), final: new Map(final), transitions };
}

/** Names of the events of a log's one trace. */
export function readXes(xml: string): readonly string[] {
  return elements(xml, 'event').flatMap(({ inside }) => {
    const name = elements(inside, 'string').find(
      ({ attributes }) => attributeOf(attributes, 'key') === 'concept:name',
    );
    return name === undefined ? [] : [attributeOf(name.attributes, 'value')];
  });
}

const keyOf = (marking: ReadonlyMap<string, number>): string =>
  [...marking]
    .filter(([, count]) => count > 0)
    .map(([place, count]) => `${place}*${count}`)
    .toSorted()
    .join(' ');

interface At {
  readonly marking: ReadonlyMap<string, number>;
  readonly i: number;
}

/**
 * The least number of labelled moves out of step, by breadth-first search over everything that can be
 * reached: no bound, no order, nothing of how the product does it.
 */
export function leastCost(net: FileNet, trace: readonly string[]): number {
  const goal = keyOf(net.final);
  const seen = new Set<string>();
  let near: At[] = [{ marking: net.initial, i: 0 }];
  for (let cost = 0; near.length > 0; cost += 1) {
    const far: At[] = [];
    for (let at = near.pop(); at !== undefined; at = near.pop()) {
      const { marking, i } = at;
      const key = `${keyOf(marking)}|${i}`;
      if (seen.has(key)) continue;
      seen.add(key);
      if (i === trace.length && keyOf(marking) === goal) return cost;
      if (i < trace.length) far.push({ marking, i: i + 1 });
      for (const { label, takes, puts } of net.transitions) {
        if (!takes.every((place) => (marking.get(place) ?? 0) > 0)) continue;
        const next = new Map(marking);
        for (const place of takes) next.set(place, (next.get(place) ?? 0) - 1);
        for (const place of puts) next.set(place, (next.get(place) ?? 0) + 1);
        (label === null ? near : far).push({ marking: next, i });
        if (label !== null && label === trace[i]) near.push({ marking: next, i: i + 1 });
      }
    }
    near = far;
  }
  return Number.POSITIVE_INFINITY;
}
