import type { RefusalId, StepId } from '../contract/index.ts';
import { type caseMachine, refusal, refusalOf, type UnitEvent } from '../seating/index.ts';
import type { Refusal } from '../contract/index.ts';
import { stepCase, stepUnit } from './scope.ts';
import type { CaseState } from './state.ts';

/** The case machine takes an event. */
export function tell(
  state: CaseState,
  event: Parameters<typeof caseMachine.transition>[1],
): CaseState {
  // Nearly every command lapses and settles with nothing waiting, which changes nothing; asking the
  // machine would cost more than the rest of the command.
  const { pending, refused } = state.desk.context;
  if (pending === null && event.type === 'lapse') return state;
  if (pending === null && refused === null && event.type === 'settled') return state;
  return { ...state, desk: stepCase(state.desk, event) };
}

type Bare = UnitEvent extends infer Event
  ? Event extends UnitEvent
    ? Omit<Event, 'at' | 'forced' | 'step'>
    : never
  : never;

/** An event for a unit, with its time, its step and what is overridden. */
export function unitEvent(
  bare: Bare,
  at: number,
  step: StepId | null = null,
  forced: readonly RefusalId[] = [],
): UnitEvent {
  return { ...bare, at, step, forced };
}

/**
 * A unit takes an event, or says why not. The machine decides; the reason is looked up only after
 * it did not take the event.
 */
export function send(
  state: CaseState,
  tooth: string,
  event: UnitEvent,
):
  | { readonly ok: true; readonly state: CaseState }
  | { readonly ok: false; readonly refusal: Refusal } {
  const snapshot = state.units[tooth];
  if (snapshot === undefined) throw new Error(`The case has no unit on tooth ${tooth}`);
  const next = stepUnit(snapshot, event);
  if (next.context.accepted > snapshot.context.accepted) {
    return { ok: true, state: { ...state, units: { ...state.units, [tooth]: next } } };
  }
  const facts = { context: snapshot.context, event };
  return { ok: false, refusal: refusal(facts, refusalOf(facts) ?? 'first') };
}

/** Why a unit would not take an event now; null when it would. Nothing changes. */
export function wouldRefuse(state: CaseState, tooth: string, event: UnitEvent): Refusal | null {
  const tried = send(state, tooth, event);
  return tried.ok ? null : tried.refusal;
}
