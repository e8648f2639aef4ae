import type { AnyStateMachine, AnyStateNode, AnyTransitionDefinition } from 'xstate';
import { RULES, caseMachine, unitMachine } from '../../machines/seating/index.ts';

/** Names of the rules a transition's guard stands for; its own name when it is a single guard. */
function guardNames(guard: unknown): readonly string[] {
  if (guard === undefined) return [];
  if (typeof guard === 'string') return [guard];
  if (typeof guard === 'object' && guard !== null && 'type' in guard) return [String(guard.type)];
  if (typeof guard === 'function' && 'guards' in guard && Array.isArray(guard.guards)) {
    const inner = guard.guards.flatMap((one: unknown) => guardNames(one));
    return guard.name === 'not' ? inner.map((name) => `not ${name}`) : inner;
  }
  return ['?'];
}

const isRule = (name: string): boolean => Object.hasOwn(RULES, name) || name === 'granted';

/** Mermaid reads a colon as the start of a label and a dot as nothing special. */
const label = (transition: AnyTransitionDefinition): string => {
  const choosers = guardNames(transition.guard).filter((name) => !isRule(name));
  const type = String(transition.eventType);
  const event = type === '' ? 'at once' : type;
  return choosers.length === 0 ? event : `${event} [${choosers.join(', ')}]`;
};

function transitionsOf(node: AnyStateNode): readonly AnyTransitionDefinition[] {
  return [...node.transitions.values()].flat().concat(node.always ?? []);
}

function arrows(from: string, node: AnyStateNode): readonly string[] {
  const grouped = new Map<string, string[]>();
  for (const transition of transitionsOf(node)) {
    const to = transition.target?.[0]?.key;
    if (to === undefined || to === from) continue;
    grouped.set(to, [...(grouped.get(to) ?? []), label(transition)]);
  }
  return [...grouped].map(([to, labels]) => `  ${from} --> ${to}: ${labels.join('<br/>')}`);
}

/** One region as a Mermaid state diagram; what its every state takes is drawn from `any`. */
function diagram(region: AnyStateNode): string {
  const states = Object.values(region.states);
  const notes = states.flatMap((state) =>
    state.description === undefined
      ? []
      : [`  ${state.key}: ${state.key}<br/>${state.description}`],
  );
  const initial = region.initial.target[0]?.key ?? '';
  const shared = arrows('any', region);
  const any = shared.length === 0 ? [] : ['  any: any state'];
  return [
    '```mermaid',
    'stateDiagram-v2',
    '  direction LR',
    ...notes,
    ...any,
    `  [*] --> ${initial}`,
    ...states.flatMap((state) => arrows(state.key, state)),
    ...shared,
    '```',
  ].join('\n');
}

function gates(machine: AnyStateMachine): readonly string[] {
  const rows = new Map<string, readonly string[]>();
  for (const region of Object.values(machine.root.states)) {
    for (const node of [region, ...Object.values(region.states)]) {
      for (const { eventType, guard } of transitionsOf(node)) {
        const rules = guardNames(guard).filter((name) => isRule(name) && name !== 'granted');
        if (rules.length > 0) rows.set(String(eventType), rules);
      }
    }
  }
  return [...rows].map(([event, rules]) => `| ${event} | ${rules.join(', ')} |`);
}

function regions(machine: AnyStateMachine): readonly string[] {
  return Object.values(machine.root.states).flatMap((region) => [
    `### ${region.key}`,
    '',
    diagram(region),
    '',
  ]);
}

/** The charts page, drawn from the machines themselves. */
export function chartsPage(): string {
  return [
    '# State charts',
    '',
    'Drawn from the machines by `npm run charts`; a test fails when this page is out of date.',
    '',
    '## A unit',
    '',
    'The regions run side by side. An arrow from `any` is taken from every state of its region.',
    '',
    ...regions(unitMachine),
    '### What each event must pass',
    '',
    'Rules in the order in which a refusal names them.',
    '',
    '| event | rules |',
    '| --- | --- |',
    ...gates(unitMachine),
    '',
    '## The case',
    '',
    ...regions(caseMachine),
  ]
    .join('\n')
    .trimEnd()
    .concat('\n');
}
