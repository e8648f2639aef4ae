import type { Call, CautionId, PlanStep, StepId } from '../contract/index.ts';
import { nextStep, planStep, windowOf } from '../seating/index.ts';
import type { UnitContext } from '../seating/index.ts';
import { type CaseState, inOrder, unitOf } from './state.ts';
import { about, waits } from './whose.ts';

export function targetS(context: UnitContext, step: StepId): number | null {
  return windowOf(context, step)?.targetS ?? null;
}

export function stepCall(state: CaseState, tooth: string, step: StepId): Call {
  return about(state, tooth, { id: 'step', step, seconds: targetS(unitOf(state, tooth), step) });
}

/** Cautions of a step not yet said in this case. */
function newCautions(state: CaseState, step: PlanStep | null): readonly CautionId[] {
  return (step?.cautions ?? []).filter((id) => !state.said.includes(id));
}

/** Says the one thing to do now, with cautions not yet said. */
export function prompt(state: CaseState): {
  readonly state: CaseState;
  readonly calls: readonly Call[];
} {
  const context = unitOf(state, state.active);
  const step = nextStep(context);
  if (step === null) return { state, calls: [about(state, state.active, { id: 'finished' })] };
  const cautions = newCautions(state, planStep(context, step));
  const calls: Call[] = [
    stepCall(state, state.active, step),
    ...cautions.map((caution): Call => ({ id: 'caution', caution })),
  ];
  return { state: { ...state, said: [...state.said, ...cautions] }, calls };
}

/** The work goes on at another unit: its name, then what to do there. */
export function moveTo(
  state: CaseState,
  tooth: string,
): { readonly state: CaseState; readonly calls: readonly Call[] } {
  const moved = prompt({ ...state, active: tooth });
  // The unit has just been named.
  const calls = moved.calls.map((call) => {
    if (call.id !== 'step' && call.id !== 'finished') return call;
    const { tooth: _, ...rest } = call;
    return rest;
  });
  return { state: moved.state, calls: [{ id: 'unit', tooth }, ...calls] };
}

/** Whether a unit has yet to be tried in. */
function untried(context: UnitContext): boolean {
  const { steps, now } = context;
  return now.where === 'bench' && steps['take-out'] === undefined && steps.seat === undefined;
}

/** The unit to go on with, in the seating order; null to stay. */
function elsewhere(state: CaseState, ended: StepId | null): string | null {
  const teeth = inOrder(state.plan);
  // All are tried in before the first is conditioned (trade reference, 9A).
  if (ended === 'take-out') {
    const open = teeth.filter((tooth) => !waits(unitOf(state, tooth)));
    return open.find((tooth) => untried(unitOf(state, tooth))) ?? open[0] ?? null;
  }
  if (!waits(unitOf(state, state.active))) return null;
  return teeth.find((tooth) => !waits(unitOf(state, tooth))) ?? null;
}

/**
 * What to do now after `ended`: when this unit waits, or is tried in and another is not, the work goes
 * on there.
 */
export function follow(
  state: CaseState,
  ended: StepId | null = null,
): { readonly state: CaseState; readonly calls: readonly Call[] } {
  const other = elsewhere(state, ended);
  return other === null || other === state.active ? prompt(state) : moveTo(state, other);
}
