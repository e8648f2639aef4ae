import type { CommandType, Live, StepId } from '../contract/index.ts';
import { STEPS } from '../contract/index.ts';
import { asked, nextStep, planStep, type UnitContext } from '../seating/index.ts';
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
  'note',
  'lot',
  'close',
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
  const commands: CommandType[] = [
    'begin',
    ...STANDING,
    ...(asking ? (['confirm', 'deny'] as const) : []),
    ...(reasoning ? (['reason', 'deny'] as const) : []),
    ...(going ? [] : (['resume'] as const)),
    ...(dwelling ? (['short', 'hold', 'release', 'add'] as const) : []),
    ...(desk.context.refused === null ? [] : (['override'] as const)),
    ...(several ? (['unit'] as const) : []),
  ];
  const byTooth = nearSteps(state);
  const teeth = [state.active, ...Object.keys(byTooth).filter((one) => one !== state.active)];
  const near = [...new Set(teeth.flatMap((tooth) => byTooth[tooth] ?? []))];
  const rest = STEPS.filter((id) => WORTH_REFUSING.includes(id) && !near.includes(id));
  const all = { commands, begins: [...near, ...rest], finishes: near };
  return several ? { ...all, near: byTooth } : all;
}

/**
 * Steps within reach on a unit, the likeliest meant first: what runs, what is due, what follows,
 * then the two before the pointer. "Rinsing" then means the rinse that is due. What runs may still be
 * begun by its words, only to be refused, by key and touch as well.
 */
function nearOn(context: UnitContext): readonly StepId[] {
  const order = asked(context);
  const here = nextStep(context);
  const from = here === null ? order.length : order.indexOf(here);
  const running = context.dwells.map((dwell) => dwell.step);
  const behind = order.slice(Math.max(0, from - 2), from);
  const always = (['take-out', 'try-in'] as const).filter((id) => planStep(context, id) !== null);
  return [...new Set([...running, ...order.slice(from, from + AHEAD), ...behind, ...always])];
}

/** The same on every unit of the case, the unit worked on first. */
function nearSteps(state: CaseState): Readonly<Record<string, readonly StepId[]>> {
  const others = Object.keys(state.units).filter((one) => one !== state.active);
  const teeth = [state.active, ...others];
  return Object.fromEntries(teeth.map((tooth) => [tooth, nearOn(unitOf(state, tooth))]));
}
