import type { Call, CautionId, PlanStep, StepId } from '../contract/index.ts';
import { nextStep, planStep, windowOf } from '../seating/index.ts';
import type { UnitContext } from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

/** Steps of the whole appointment that wait for the last unit. */
const LAST_FOR_ALL: readonly StepId[] = ['instructions', 'lots'];

export function targetS(context: UnitContext, step: StepId): number | null {
  return windowOf(context, step)?.targetS ?? null;
}

export function stepCall(context: UnitContext, step: StepId): Call {
  return { id: 'step', step, seconds: targetS(context, step) };
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
  if (step === null) return { state, calls: [{ id: 'finished' }] };
  const cautions = newCautions(state, planStep(context, step));
  const calls: Call[] = [
    stepCall(context, step),
    ...cautions.map((caution): Call => ({ id: 'caution', caution })),
  ];
  return { state: { ...state, said: [...state.said, ...cautions] }, calls };
}

/** Whether a unit has nothing left but what waits for the last unit. */
function waits(context: UnitContext): boolean {
  const step = nextStep(context);
  return step === null || LAST_FOR_ALL.includes(step);
}

/** When this unit waits and another has work, the work goes on there. */
export function follow(state: CaseState): {
  readonly state: CaseState;
  readonly calls: readonly Call[];
} {
  if (!waits(unitOf(state, state.active))) return prompt(state);
  const other = state.plan.units.find((unit) => !waits(unitOf(state, unit.tooth)));
  if (other === undefined || other.tooth === state.active) return prompt(state);
  const moved = prompt({ ...state, active: other.tooth });
  return { state: moved.state, calls: [{ id: 'unit', tooth: other.tooth }, ...moved.calls] };
}
