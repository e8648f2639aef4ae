import type { Call, StepId } from '../contract/index.ts';
import { nextStep, planStep, type UnitContext } from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

/** Steps of the whole appointment that wait for the last unit. */
const LAST_FOR_ALL: readonly StepId[] = ['instructions', 'lots'];

/** Whether a unit has nothing left but what waits for the last unit. */
export function waits(context: UnitContext): boolean {
  const step = nextStep(context);
  return step === null || LAST_FOR_ALL.includes(step);
}

/** Whether there is another unit that a call could be taken to be about. */
function mistakable(state: CaseState, tooth: string): boolean {
  return Object.keys(state.units).some((other) => {
    if (other === tooth) return false;
    const context = unitOf(state, other);
    return !waits(context) || context.dwells.length > 0;
  });
}

type Nameable<C> = C extends { readonly id: 'unit' } ? never : 'tooth' extends keyof C ? C : never;

/** A call about a unit: it names the tooth when another unit is open too, unless the step is for all of them. */
export function about(state: CaseState, tooth: string, call: Nameable<Call>): Call {
  const step = 'step' in call && call.step !== null ? call.step : null;
  const forAll = step !== null && planStep(unitOf(state, tooth), step)?.scope === 'case';
  return forAll || !mistakable(state, tooth) ? call : { ...call, tooth };
}
