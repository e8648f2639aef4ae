import type { Header } from '../contract/index.ts';
import { planNet, type ProcessNet } from '../review/index.ts';
import { type Element, xmlText } from './xml.ts';

const NAMESPACE = 'http://www.pnml.org/version-2009/grammar/pnml';
const PLACE_TRANSITION = 'http://www.pnml.org/version-2009/grammar/ptnet';

const named = (text: string): Element => ({
  name: 'name',
  inside: [{ name: 'text', inside: text }],
});

const tokens = (name: string, count: number): Element => ({
  name,
  inside: [{ name: 'text', inside: `${count}` }],
});

/** How process-mining libraries mark a transition that no event stands for. */
const silent: Element = {
  name: 'toolspecific',
  attributes: { tool: 'ProM', version: '6.4', activity: '$invisible$' },
};

/** Places of the net as a workflow net: every component's, and one before and one after all of them. */
interface Nodes {
  readonly places: readonly Element[];
  readonly transitions: readonly Element[];
  readonly arcs: readonly Element[];
}

const placeId = (component: number, place: number): string => `p${component + 1}_${place + 1}`;

function nodesOf({ components, transitions }: ProcessNet): Nodes {
  const arcs: Element[] = [];
  const join = (source: string, target: string): void => {
    const id = `a${arcs.length + 1}`;
    arcs.push({ name: 'arc', attributes: { id, source, target } });
  };
  const place = (id: string, text: string, marked = false): Element => ({
    name: 'place',
    attributes: { id },
    inside: [named(text), ...(marked ? [tokens('initialMarking', 1)] : [])],
  });
  const transition = (id: string, label: string | null): Element => ({
    name: 'transition',
    attributes: { id },
    inside: label === null ? [named(id), silent] : [named(label)],
  });
  const places = [
    place('begin', 'begin', true),
    place('end', 'end'),
    ...components.flatMap(({ name, places: own }, c) =>
      own.map((text, p) => place(placeId(c, p), `${name}: ${text}`)),
    ),
  ];
  const moves = [transition('open', null)];
  join('begin', 'open');
  for (const [c, { initial }] of components.entries()) join('open', placeId(c, initial));
  for (const { id, label, arcs: own } of transitions) {
    moves.push(transition(id, label));
    for (const { component, from, to } of own) {
      join(placeId(component, from), id);
      join(id, placeId(component, to));
    }
  }
  moves.push(transition('close', null));
  for (const [c, { final }] of components.entries()) join(placeId(c, final), 'close');
  join('close', 'end');
  return { places, transitions: moves, arcs };
}

/**
 * The net of a record's plan as PNML (ISO/IEC 15909-2, a place/transition net): a workflow net from
 * `begin` to `end`, with the final marking and the silent transitions marked as process-mining
 * libraries read them; neither has a place in the standard itself.
 * @throws NotASeating when the plan is none.
 */
export function toPnml(header: Header): string {
  const { places, transitions, arcs } = nodesOf(planNet(header.case, header.plan));
  const name = `${header.invented ? 'invented: ' : ''}${header.case.reference}`;
  const final: Element = {
    name: 'finalmarkings',
    inside: [
      {
        name: 'marking',
        inside: [
          {
            name: 'place',
            attributes: { idref: 'end' },
            inside: [{ name: 'text', inside: '1' }],
          },
        ],
      },
    ],
  };
  return xmlText({
    name: 'pnml',
    attributes: { xmlns: NAMESPACE },
    inside: [
      {
        name: 'net',
        attributes: { id: 'plan', type: PLACE_TRANSITION },
        inside: [
          named(name),
          {
            name: 'page',
            attributes: { id: 'page' },
            inside: [...places, ...transitions, ...arcs],
          },
          final,
        ],
      },
    ],
  });
}
