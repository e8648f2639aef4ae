import type { CommandType, Live, StepId } from '../contract/index.ts';
import { STEPS } from '../contract/index.ts';
import { asked, nextStep, planStep } from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

/** Dangerous or pointless acts people do attempt: heard in every state, so that they can be refused aloud. */
const WORTH_REFUSING: readonly StepId[] = [
  'cleaner',
  'porcelain-etch',
  'abrade',
  'acid-clean',
  'silane',
  'zirconia-primer',
  'tooth-etch',
  'mix',
  'load',
  'seat',
  'try-in',
];

/** How far ahead of the pointer steps are listened for: two pairs of hands work in parallel. */
const AHEAD = 14;

const STANDING: readonly CommandType[] = [
  'finish',
  'skip',
  'soil',
  'find',
  'next',
  'back',
  'undo',
  'pause',
  'stop',
  'ask',
  'start-over',
  'counts-clean',
];

/** What means something now; see {@link Live}. */
export function live(state: CaseState): Live {
  const { desk } = state;
  if (desk.matches({ pace: 'closed' })) return { commands: [], begins: [], finishes: [] };
  const asking = desk.matches({ question: 'confirming' });
  const reasoning = desk.matches({ question: 'reasoning' });
  const going = desk.matches({ pace: 'going' });
  const dwelling = Object.values(state.units).some((unit) => unit.context.dwells.length > 0);
  const several = Object.keys(state.units).length > 1;
  const done = Object.values(state.units).every((unit) => nextStep(unit.context) === null);
  const commands: CommandType[] = [
    'begin',
    ...STANDING,
    ...(asking ? (['confirm', 'deny'] as const) : []),
    ...(reasoning ? (['reason', 'deny'] as const) : []),
    ...(going ? [] : (['resume'] as const)),
    ...(dwelling ? (['short', 'hold', 'release', 'add'] as const) : []),
    ...(desk.context.refused === null ? [] : (['override'] as const)),
    ...(several ? (['unit'] as const) : []),
    ...(done ? (['close'] as const) : []),
  ];
  const near = nearSteps(state);
  return {
    commands,
    begins: STEPS.filter((id) => near.has(id) || WORTH_REFUSING.includes(id)),
    finishes: STEPS.filter((id) => near.has(id)),
  };
}

/** Steps from the one before the pointer on, those running, and the intaglio's spare ones, on any unit. */
function nearSteps(state: CaseState): ReadonlySet<StepId> {
  const near = new Set<StepId>();
  for (const tooth of Object.keys(state.units)) {
    const context = unitOf(state, tooth);
    const order = asked(context);
    const here = nextStep(context);
    const from = here === null ? order.length : order.indexOf(here);
    for (const id of order.slice(Math.max(0, from - 2), from + AHEAD)) near.add(id);
    for (const dwell of context.dwells) near.add(dwell.step);
    for (const id of ['take-out', 'try-in'] as const) if (planStep(context, id)) near.add(id);
  }
  return near;
}
