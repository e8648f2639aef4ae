import type {
  Call,
  Command,
  Deviation,
  Reason,
  Refusal,
  RefusalId,
  StepId,
} from '../contract/index.ts';
import {
  CURES,
  isLong,
  plainRefusal,
  planStep,
  READ_BACK,
  servedMs,
  shortByS,
  type UnitContext,
} from '../seating/index.ts';
import { holdsUntil } from './hold.ts';
import { follow, targetS } from './prompt.ts';
import { meant, toothOf } from './resolve.ts';
import { accepted, asked, deviation, type Given, refused, type Result } from './result.ts';
import { send, tell, unitEvent, wouldRefuse } from './send.ts';
import { type CaseState, dwellsRunning, unitOf } from './state.ts';
import { remember, wall } from './undo.ts';
import { about } from './whose.ts';

type Of<T extends Command['type']> = Extract<Command, { readonly type: T }>;

/** What was already settled about a command: overridden refusals, a reason, a yes. */
export interface Settled {
  readonly forced: readonly RefusalId[];
  readonly reason: Reason | null;
  readonly confirmed: boolean;
  /** The refusal an override is about; makes the outcome a deviation. */
  readonly overrode: Refusal | null;
}
export const UNSETTLED: Settled = { forced: [], reason: null, confirmed: false, overrode: null };

/** Refuses, and keeps what was refused so that it can be overridden. */
export function turnDown(
  { state, command }: Given,
  tooth: string,
  refusal: Refusal,
  forced: readonly RefusalId[] = [],
): Result {
  const kept = tell(state, { type: 'refused', refused: { command, tooth, forced, refusal } });
  return refused(kept, tooth, refusal);
}

const stepOf = (command: Command): StepId | null =>
  'step' in command ? (command.step ?? null) : null;

/** Asks for a yes; nothing else changes. */
function readBack({ state, command }: Given, tooth: string, call: Call, settled: Settled): Result {
  const pending = {
    command,
    tooth,
    forced: settled.forced,
    reason: settled.reason,
    refusal: settled.overrode,
    call,
  };
  const waiting = tell(state, { type: 'ask.yes', pending });
  return asked(waiting, tooth, call, stepOf(command));
}

function askReason(
  { state, command }: Given,
  tooth: string,
  asking: Extract<Call, { readonly id: 'ask-reason' }>['for'],
): Result {
  const call = about(state, tooth, { id: 'ask-reason', for: asking });
  const pending = { command, tooth, forced: [], reason: null, refusal: null, call };
  const waiting = tell(state, { type: 'ask.reason', pending });
  return asked(waiting, tooth, call, stepOf(command));
}

/** Law 8: the first cure of a unit is read back, the following surfaces are the same light. */
function mustReadBack(context: UnitContext, step: StepId): boolean {
  if (!READ_BACK.includes(step)) return false;
  // A surface that was never planned and forced all the same is not the light this unit was asked about.
  const lit = (cure: StepId): boolean =>
    planStep(context, cure) !== null && context.steps[cure] === 'done';
  return !CURES.includes(step) || !CURES.some(lit);
}

/** Everything that was overridden for a command, as its deviation keeps it. */
function overridden({ overrode, forced }: Settled): Partial<Deviation> {
  const also = forced.filter((id) => id !== overrode?.id);
  return { refusal: overrode, ...(also.length === 0 ? {} : { also }) };
}

const overrideOf = (settled: Settled, step: StepId): Deviation | null =>
  settled.overrode === null
    ? null
    : deviation('overridden', { step, reason: settled.reason, ...overridden(settled) });

/** The command with the unit and step it was taken to mean, so that an answer later means the same. */
function named<T extends Of<'begin' | 'finish' | 'short' | 'skip'>>(
  given: Given<T>,
  tooth: string,
  step: StepId,
): Given<T> {
  return { ...given, command: { ...given.command, tooth, step } };
}

/** Steps in which the surfaces are soiled by what is done: taking them back is withdrawing a contamination. */
function soils(context: UnitContext, step: StepId): boolean {
  if (step === 'shade') return context.facts.tryInPaste;
  return step === 'fit-paste';
}

/** The doing of a step starts. */
export function begin(given: Given<Of<'begin'> | Of<'finish'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const { tooth, step } = meant(state, command);
  if (step === null) return turnDown(given, tooth, plainRefusal('nothing-before'));
  const event = unitEvent({ type: `begin.${step}` }, stamp.at, step, settled.forced);
  const before = unitOf(state, tooth);
  if (!settled.confirmed && mustReadBack(before, step)) {
    const why = wouldRefuse(state, tooth, event);
    if (why !== null) return turnDown(named(given, tooth, step), tooth, why, settled.forced);
    const call = about(state, tooth, { id: 'ask-begin', step });
    return readBack(named(given, tooth, step), tooth, call, settled);
  }
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(named(given, tooth, step), tooth, sent.refusal, settled.forced);
  const after = tell({ ...sent.state, active: tooth }, { type: 'settled' });
  const final = READ_BACK.includes(step);
  const soiling = step === 'try-in' || soils(before, step);
  const kept = final
    ? wall(after, tooth)
    : remember(state, after, { tooth, step, contamination: soiling });
  const seconds = targetS(unitOf(after, tooth), step);
  const begun = about(after, tooth, { id: 'begun', step, seconds });
  if (step !== 'mix' && step !== 'load') {
    const said = step === 'seat' ? [begun, ...holdCall(after, tooth, stamp.at)] : [begun];
    return accepted(kept, tooth, said, overrideOf(settled, step), step);
  }
  const next = follow(kept);
  const left = unitOf(after, tooth).plan.cement.workingS;
  const seatBy: readonly Call[] =
    step === 'mix'
      ? [
          about(after, tooth, { id: 'seat-by', seconds: Math.round(left) }),
          ...sharers(after, tooth, stamp.at),
        ]
      : [];
  const calls = [begun, ...seatBy, ...next.calls];
  return accepted(next.state, tooth, calls, overrideOf(settled, step), step);
}

/** The others meant for the same mix, while one is mixed for: whether each can share it. */
function sharers(state: CaseState, tooth: string, at: number): readonly Call[] {
  const mix = state.plan.order.find((teeth) => teeth.includes(tooth)) ?? [];
  return mix
    .filter((other) => other !== tooth && unitOf(state, other).now.cement === 'none')
    .map((other) => {
      const why = wouldRefuse(state, other, unitEvent({ type: 'begin.mix' }, at, 'mix'));
      return { id: 'same-mix', tooth: other, ready: why === null } as const;
    });
}

/** A crown just seated: how long it is not to be moved. */
function holdCall(state: CaseState, tooth: string, at: number): readonly Call[] {
  const hold = holdsUntil(unitOf(state, tooth));
  if (hold === null || hold.at <= at) return [];
  const seconds = Math.ceil((hold.at - at) / 1000);
  return [about(state, tooth, { id: 'hold-until', until: hold.until, seconds })];
}

/** Steps of the case count for every unit at once. */
function shareStep(
  state: CaseState,
  tooth: string,
  act: 'finish' | 'skip',
  step: StepId,
  at: number,
): CaseState {
  if (planStep(unitOf(state, tooth), step)?.scope !== 'case') return state;
  return Object.keys(state.units)
    .filter((other) => other !== tooth)
    .reduce((shared, other) => {
      const event =
        act === 'finish'
          ? unitEvent({ type: `finish.${step}` }, at, step)
          : unitEvent({ type: `skip.${step}` }, at, step);
      const sent = send(shared, other, event);
      return sent.ok ? sent.state : shared;
    }, state);
}

/** A step is done; too early a "done" on a dwell is refused with the seconds that are left (law 7). */
export function finish(given: Given<Of<'finish'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const { tooth, step, act } = meant(state, command);
  if (act === 'begin') return begin(given, settled);
  if (step === null) return turnDown(given, tooth, plainRefusal('nothing-before'));
  const context = unitOf(state, tooth);
  const event = unitEvent({ type: `finish.${step}` }, stamp.at, step, settled.forced);
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(named(given, tooth, step), tooth, sent.refusal, settled.forced);
  const long = isLong(context, step, stamp.at)
    ? deviation('long', { step, servedS: servedS(context, step, stamp.at) })
    : null;
  const shared = shareStep(sent.state, tooth, 'finish', step, stamp.at);
  const contamination = soils(context, step);
  const settledState = tell(shared, { type: 'settled' });
  const next = follow(remember(state, settledState, { tooth, step, contamination }), step);
  const calls = [...ended(given, tooth, step), ...next.calls];
  return accepted(next.state, tooth, calls, overrideOf(settled, step) ?? long, step);
}

/** A bare "done" is answered with what it ended, where several dwells run or it was not at the unit worked on. */
function ended(
  { state, command }: Given<Of<'finish'>>,
  tooth: string,
  step: StepId,
): readonly Call[] {
  const plain = command.step !== undefined;
  if (plain || (dwellsRunning(state) < 2 && tooth === state.active)) return [];
  return [about(state, tooth, { id: 'ended', step })];
}

function servedS(context: UnitContext, step: StepId, at: number): number | null {
  const dwell = context.dwells.find((one) => one.step === step);
  return dwell === undefined ? null : Math.round(servedMs(dwell, at) / 100) / 10;
}

/** A dwell ends early: only with a reason, read back, and kept as a deviation (law 7). */
export function short(given: Given<Of<'short'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const { tooth, step } = meant(state, command);
  if (step === null) return turnDown(given, tooth, plainRefusal('no-dwell'));
  const meaning = named(given, tooth, step);
  const event = unitEvent({ type: `short.${step}` }, stamp.at, step, settled.forced);
  const why = wouldRefuse(state, tooth, event);
  if (why !== null) return turnDown(meaning, tooth, why, settled.forced);
  const context = unitOf(state, tooth);
  if (shortByS(context, step, stamp.at) === 0) {
    return finish({ state, stamp, command: { type: 'finish', step, tooth } }, settled);
  }
  const reason = settled.reason ?? command.reason ?? null;
  if (reason === null) return askReason(meaning, tooth, 'short');
  if (!settled.confirmed) {
    const call = about(state, tooth, { id: 'ask-short', step, reason });
    return readBack(meaning, tooth, call, { ...settled, reason });
  }
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(meaning, tooth, sent.refusal, settled.forced);
  const next = follow(remember(state, tell(sent.state, { type: 'settled' }), { tooth, step }));
  const served = servedS(context, step, stamp.at);
  const kept = deviation('short', { step, reason, servedS: served, ...overridden(settled) });
  return accepted(next.state, tooth, next.calls, kept);
}

/** A step is left out: with a reason, read back first, and kept as a deviation. */
export function skip(given: Given<Of<'skip'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const { tooth, step } = meant(state, command);
  if (step === null) return turnDown(given, tooth, plainRefusal('nothing-before'));
  const meaning = named(given, tooth, step);
  const event = unitEvent({ type: `skip.${step}` }, stamp.at, step, settled.forced);
  const why = wouldRefuse(state, tooth, event);
  if (why !== null) return turnDown(meaning, tooth, why, settled.forced);
  const reason = settled.reason ?? command.reason ?? null;
  if (reason === null) return askReason(meaning, tooth, 'skip');
  if (!settled.confirmed) {
    const call = about(state, tooth, { id: 'ask-skip', step, reason });
    return readBack(meaning, tooth, call, { ...settled, reason });
  }
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(meaning, tooth, sent.refusal, settled.forced);
  const shared = shareStep(sent.state, tooth, 'skip', step, stamp.at);
  const after = remember(state, tell(shared, { type: 'settled' }), { tooth, step });
  const next = follow(after, step);
  const calls: readonly Call[] = [about(state, tooth, { id: 'skipped', step }), ...next.calls];
  return accepted(
    next.state,
    tooth,
    calls,
    deviation('skipped', { step, reason, ...overridden(settled) }),
  );
}

/** Something landed on a surface: never refused for convenience, and it voids what it voids (law 5). */
export function soil(given: Given<Of<'soil'>>): Result {
  const { state, command, stamp } = given;
  const tooth = toothOf(state, command);
  const { surface, contaminant } = command;
  const event = unitEvent({ type: `soil.${surface}`, contaminant }, stamp.at);
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(given, tooth, sent.refusal);
  const after = tell({ ...sent.state, active: tooth }, { type: 'settled' });
  const next = follow(remember(state, after, { tooth, contamination: true }));
  const soiled = about(state, tooth, { id: 'soiled', surface, contaminant });
  return accepted(next.state, tooth, [soiled, ...next.calls]);
}

/** A finding is kept; bleeding also soils the prep. */
export function find(given: Given<Of<'find'>>): Result {
  const { state, command, stamp } = given;
  const tooth = toothOf(state, command);
  const { finding } = command;
  if (finding === 'still-bleeding') {
    return soil({
      ...given,
      command: { type: 'soil', surface: 'prep', contaminant: 'blood', tooth },
    });
  }
  const sent = send(state, tooth, unitEvent({ type: 'find', finding }, stamp.at));
  if (!sent.ok) return turnDown(given, tooth, sent.refusal);
  const found = about(state, tooth, { id: 'found', finding });
  return accepted(remember(state, sent.state, { tooth }), tooth, [found]);
}

/** Somebody says the tried-in crown is clean: with a reason, read back, kept as a deviation. */
export function countsClean(given: Given<Of<'counts-clean'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const tooth = toothOf(state, command);
  const event = unitEvent({ type: 'counts-clean' }, stamp.at, null, settled.forced);
  const why = wouldRefuse(state, tooth, event);
  if (why !== null) return turnDown(given, tooth, why, settled.forced);
  const reason = settled.reason ?? command.reason ?? null;
  if (reason === null) return askReason(given, tooth, 'counts-clean');
  if (!settled.confirmed) {
    const call = about(state, tooth, { id: 'ask-counts-clean', reason });
    return readBack(given, tooth, call, { ...settled, reason });
  }
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(given, tooth, sent.refusal, settled.forced);
  const next = follow(remember(state, tell(sent.state, { type: 'settled' }), { tooth }));
  return accepted(
    next.state,
    tooth,
    next.calls,
    deviation('counted-clean', { reason, ...overridden(settled) }),
  );
}

/** Cement out, clean, begin again; read back, because it gives up what was bonded. */
export function startOver(given: Given<Of<'start-over'>>, settled = UNSETTLED): Result {
  const { state, command, stamp } = given;
  const tooth = toothOf(state, command);
  const event = unitEvent({ type: 'start-over' }, stamp.at, null, settled.forced);
  const why = wouldRefuse(state, tooth, event);
  if (why !== null) return turnDown(given, tooth, why, settled.forced);
  if (!settled.confirmed)
    return readBack(given, tooth, about(state, tooth, { id: 'ask-start-over' }), settled);
  const sent = send(state, tooth, event);
  if (!sent.ok) return turnDown(given, tooth, sent.refusal, settled.forced);
  const next = follow(wall(tell(sent.state, { type: 'settled' }), tooth));
  const kept = deviation('started-over', { reason: settled.reason, ...overridden(settled) });
  return accepted(next.state, tooth, next.calls, kept);
}
