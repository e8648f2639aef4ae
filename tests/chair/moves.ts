import fc from 'fast-check';
import {
  type Command,
  type Contaminant,
  CONTAMINANTS,
  FINDINGS,
  REASONS,
  type StepId,
  STEPS,
  type Surface,
  SURFACES,
} from '../../machines/contract/index.ts';
import { planStep } from '../../machines/seating/index.ts';
import type { Operatory } from './operatory.ts';

/** One thing people do: say something, do what is due as planned, do what the last refusal asks, let time pass. */
export type Move =
  | { readonly do: 'say' | 'mumble'; readonly command: Command; readonly yes: boolean }
  /** A step by force: whatever may be overridden is, again and again. */
  | { readonly do: 'force'; readonly step: StepId }
  | { readonly do: 'due' | 'way' | 'insist' }
  | { readonly do: 'until'; readonly step: StepId }
  /** What is due, ended `seconds` before its least: "done", and when that is refused, "short". */
  | { readonly do: 'haste'; readonly seconds: number }
  /** Something lands in the middle of what is due; it is ended as if nothing had. */
  | { readonly do: 'mishap'; readonly surface: Surface; readonly contaminant: Contaminant }
  /** Something lands on the inside, and a step is forced on it all the same. */
  | { readonly do: 'spite'; readonly contaminant: Contaminant; readonly step: StepId }
  /** Another step is begun and left standing, and the plan goes on towards the mix or the seat. */
  | { readonly do: 'meddle'; readonly step: StepId; readonly towards: StepId }
  | { readonly do: 'wait'; readonly seconds: number };

const step = fc.constantFrom(...STEPS);
/** Acts on which laws hang, drawn more often than looks and talk. */
const heavy = fc.constantFrom<StepId>(
  'try-in',
  'take-out',
  'cleaner',
  'cleaner-rinse',
  'acid-clean',
  'acid-clean-rinse',
  'abrade',
  'porcelain-etch',
  'porcelain-etch-rinse',
  'intaglio-rinse',
  'intaglio-dry',
  'silane',
  'zirconia-primer',
  'metal-primer',
  'primer-dry',
  'fit-paste',
  'pumice',
  'dry-check',
  'tooth-etch',
  'tooth-etch-rinse',
  'bond',
  'bond-thin',
  'prep-moist',
  'prep-dry',
  'prep-roughen',
  'abutment-clean',
  'base-abrade',
  'core-primer',
  'abutment-primer',
  'mix',
  'load',
  'seat',
  'cure-occlusal',
);
const anyStep = fc.oneof({ weight: 4, arbitrary: heavy }, step);
const reason = fc.constantFrom(...REASONS);
const tooth = fc.option(fc.constantFrom('46', '15'), { nil: undefined, freq: 3 });
const at = <T extends object>(command: T, where: string | undefined) =>
  where === undefined ? command : { ...command, tooth: where };
const withReason = <T extends object>(command: T, why: (typeof REASONS)[number] | undefined) =>
  why === undefined ? command : { ...command, reason: why };
const maybe = fc.option(reason, { nil: undefined, freq: 3 });

const command: fc.Arbitrary<Command> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .tuple(anyStep, tooth)
      .map(([one, t]) => at({ type: 'begin' as const, step: one }, t)),
  },
  {
    weight: 4,
    arbitrary: fc
      .tuple(anyStep, tooth)
      .map(([one, t]) => at({ type: 'finish' as const, step: one }, t)),
  },
  { weight: 3, arbitrary: tooth.map((t) => at({ type: 'finish' as const }, t)) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(maybe, tooth)
      .map(([why, t]) => at(withReason({ type: 'short' as const }, why), t)),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(anyStep, maybe)
      .map(([one, why]) => withReason({ type: 'skip' as const, step: one }, why)),
  },
  { weight: 1, arbitrary: maybe.map((why) => withReason({ type: 'skip' as const }, why)) },
  { weight: 3, arbitrary: maybe.map((why) => withReason({ type: 'override' as const }, why)) },
  { weight: 1, arbitrary: reason.map((why) => ({ type: 'reason' as const, reason: why })) },
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.constantFrom(...SURFACES), fc.constantFrom(...CONTAMINANTS), tooth)
      .map(([surface, contaminant, t]) => at({ type: 'soil' as const, surface, contaminant }, t)),
  },
  { weight: 1, arbitrary: maybe.map((why) => withReason({ type: 'counts-clean' as const }, why)) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...FINDINGS).map((finding) => ({ type: 'find' as const, finding })),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom('46', '15', '11')
      .map((one) => ({ type: 'unit' as const, tooth: one })),
  },
  { weight: 1, arbitrary: fc.constant({ type: 'confirm' as const }) },
  { weight: 2, arbitrary: fc.constant({ type: 'undo' as const }) },
  {
    weight: 4,
    arbitrary: fc
      .constantFrom(
        ...(['start-over', 'next', 'back', 'deny', 'pause', 'resume', 'resume', 'stop'] as const),
        ...(['hold', 'release', 'close'] as const),
      )
      .map((type) => ({ type })),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(5, 60).map((seconds) => ({ type: 'add' as const, seconds })),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom('step' as const, 'time' as const, 'why' as const, 'repeat' as const)
      .map((about) => ({ type: 'ask' as const, about })),
  },
  { weight: 1, arbitrary: fc.constant({ type: 'note' as const, text: 'a note' }) },
);

const milestone = fc.constantFrom<StepId>(
  'try-in',
  'take-out',
  'intaglio-dry',
  'primer-dry',
  'dry-check',
  'bond-thin',
  'mix',
  'mix',
  'load',
  'seat',
  'tack',
  'cure-buccal',
  'residual',
  'lots',
);

/** Moves biased so that sequences get deep: much by the plan, then something against it. */
export const arbitraryMove: fc.Arbitrary<Move> = fc.oneof(
  {
    weight: 9,
    arbitrary: fc
      .tuple(command, fc.nat(3))
      .map(([one, n]): Move => ({ do: 'say', command: one, yes: n > 0 })),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(command, fc.nat(3))
      .map(([one, n]): Move => ({ do: 'mumble', command: one, yes: n > 0 })),
  },
  { weight: 3, arbitrary: heavy.map((one): Move => ({ do: 'force', step: one })) },
  { weight: 5, arbitrary: fc.constant<Move>({ do: 'due' }) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(1, 2, 9).map((s): Move => ({ do: 'haste', seconds: s })),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.constantFrom(...SURFACES), fc.constantFrom(...CONTAMINANTS))
      .map(([surface, contaminant]): Move => ({ do: 'mishap', surface, contaminant })),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(heavy, fc.constantFrom<StepId>('mix', 'seat', 'tack'))
      .map(([one, towards]): Move => ({ do: 'meddle', step: one, towards })),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(
        fc.constantFrom(...CONTAMINANTS),
        fc.constantFrom<StepId>('zirconia-primer', 'silane', 'seat'),
      )
      .map(([contaminant, one]): Move => ({ do: 'spite', contaminant, step: one })),
  },
  { weight: 2, arbitrary: fc.constant<Move>({ do: 'way' }) },
  { weight: 2, arbitrary: fc.constant<Move>({ do: 'insist' }) },
  { weight: 1, arbitrary: milestone.map((one): Move => ({ do: 'until', step: one })) },
  {
    weight: 2,
    arbitrary: fc
      .constantFrom(0, 1, 4, 10, 20, 30, 61, 100, 200, 430, 1200, 2000, 4000)
      .map((seconds): Move => ({ do: 'wait', seconds })),
  },
);

/** Says yes while something is read back. */
function yes(chair: Operatory, outcome = chair.told.at(-1)?.outcome): void {
  if (outcome?.kind === 'asked') chair.say({ type: 'confirm' });
}

/** Does one step as the plan asks, whatever comes of it: begins it, serves what is left of it, ends it. */
export function perform(chair: Operatory, one: StepId, on: string): void {
  const context = chair.unitOn(on);
  const dwell = planStep(context, one)?.dwell ?? null;
  const running = context.dwells.find((each) => each.step === one);
  if (one === 'mix' || one === 'load') {
    yes(chair, chair.say({ type: 'begin', step: one, tooth: on }));
    return;
  }
  const begins =
    (dwell !== null && running === undefined) ||
    (one === 'try-in' && context.now.where !== 'mouth');
  if (begins) yes(chair, chair.say({ type: 'begin', step: one, tooth: on }));
  if (dwell !== null) chair.wait(dwell.targetS);
  if (running !== undefined && running.heldAt !== null) {
    chair.say({ type: 'release' });
    chair.wait(dwell?.targetS ?? 0);
  }
  chair.say({ type: 'finish', step: one, tooth: on });
}

/** A command for a unit that the case has; teeth no case has stay as they are. */
function addressed(chair: Operatory, said: Command): Command {
  const misses = 'tooth' in said && said.tooth === '15' && chair.state.units['15'] === undefined;
  return misses ? { ...said, tooth: chair.state.active } : said;
}

/** Says a command and overrides what is refused for as long as that is possible. */
function insist(chair: Operatory, said: Command): void {
  let outcome = chair.say(said);
  for (let turns = 0; turns < 8; turns += 1) {
    if (outcome.kind === 'asked') outcome = chair.say({ type: 'confirm' });
    if (outcome.kind !== 'refused' || !outcome.refusal.overridable) return;
    outcome = chair.say({ type: 'override', reason: 'clinical-judgement' });
  }
}

function force(chair: Operatory, one: StepId): void {
  insist(chair, { type: 'begin', step: one });
  if (one === 'mix' || one === 'load') return;
  chair.wait(planStep(chair.unit, one)?.dwell?.targetS ?? 0);
  insist(chair, { type: 'finish', step: one });
}

/** The plan as it is due, until a step or a refusal. */
function goOn(chair: Operatory, to: StepId): void {
  for (let turns = 0; turns < 45 && chair.step !== to; turns += 1) {
    const { told, step: due } = chair;
    if (due === null) return;
    perform(chair, due, chair.state.active);
    if (told.at(-1)?.outcome.kind === 'refused') return;
  }
}

/** Begins what is due; its window, or null when it has none. */
function start(chair: Operatory) {
  const { step: due } = chair;
  const window = due === null ? null : (planStep(chair.unit, due)?.dwell ?? null);
  if (due === null || window === null) return null;
  yes(chair, chair.say({ type: 'begin', step: due }));
  return { due, window };
}

function haste(chair: Operatory, seconds: number): void {
  const begun = start(chair);
  if (begun === null) return;
  chair.wait(Math.max(0, begun.window.minS - seconds));
  const { due } = begun;
  if (chair.say({ type: 'finish', step: due }).kind !== 'refused') return;
  yes(chair, chair.say({ type: 'short', step: due, reason: 'patient-comfort' }));
}

function mishap(chair: Operatory, surface: Surface, contaminant: Contaminant): void {
  const begun = start(chair);
  if (begun === null) return;
  chair.wait(begun.window.minS / 2);
  chair.say({ type: 'soil', surface, contaminant });
  chair.wait(begun.window.targetS);
  chair.say({ type: 'finish', step: begun.due });
  yes(chair, chair.say({ type: 'begin', step: 'try-in' }));
}

/** Carries a move out. */
export function play(chair: Operatory, move: Move): void {
  if (move.do === 'say') {
    const outcome = chair.say(addressed(chair, move.command));
    if (move.yes) yes(chair, outcome);
  }
  if (move.do === 'mumble') {
    const outcome = chair.mumble(addressed(chair, move.command));
    if (move.yes) yes(chair, outcome);
  }
  if (move.do === 'force') force(chair, move.step);
  if (move.do === 'wait') chair.wait(move.seconds);
  if (move.do === 'due' && chair.step !== null) perform(chair, chair.step, chair.state.active);
  if (move.do === 'until') goOn(chair, move.step);
  if (move.do === 'haste') haste(chair, move.seconds);
  if (move.do === 'mishap') mishap(chair, move.surface, move.contaminant);
  if (move.do === 'spite') {
    chair.say({ type: 'soil', surface: 'intaglio', contaminant: move.contaminant });
    force(chair, move.step);
  }
  if (move.do === 'meddle') {
    yes(chair, chair.say({ type: 'begin', step: move.step }));
    goOn(chair, move.towards);
    yes(chair, chair.say({ type: 'begin', step: move.towards }));
  }
  const last = chair.told.at(-1);
  if (last?.outcome.kind !== 'refused') return;
  const { refusal } = last.outcome;
  if (move.do === 'way' && refusal.wayOn !== null && last.tooth !== null) {
    perform(chair, refusal.wayOn, last.tooth);
  }
  if (move.do === 'insist') {
    yes(chair, chair.say({ type: 'override', reason: 'clinical-judgement' }));
  }
}
