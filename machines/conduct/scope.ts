import { createActor } from 'xstate';
import { caseMachine, unitMachine } from '../seating/index.ts';
import type { CaseSnapshot, UnitSnapshot } from './state.ts';

type CaseScope = Parameters<typeof caseMachine.transition>[2];
type UnitScope = Parameters<typeof unitMachine.transition>[2];
type CaseEvent = Parameters<typeof caseMachine.transition>[1];
type UnitEvent = Parameters<typeof unitMachine.transition>[1];

const nothing = (): void => undefined;
const idle = {
  id: '',
  sessionId: '',
  logger: nothing,
  defer: nothing,
  emit: nothing,
  stopChild: nothing,
  actionExecutor: nothing,
} as const;

/*
 * A chart's step needs an actor to stand in for, though ours only assign and never send. xstate's own
 * `transition` makes one anew for every event, and with it the first state of the whole chart, which
 * costs as much as the step itself. One a chart is enough: it is never started.
 */
let caseScope: CaseScope | null = null;
let unitScope: UnitScope | null = null;

/** The case chart's next snapshot. Pure, as `transition` is. */
export function stepCase(snapshot: CaseSnapshot, event: CaseEvent): CaseSnapshot {
  if (caseScope === null) {
    const self = createActor(caseMachine);
    caseScope = { ...idle, self, system: self.system };
  }
  return caseMachine.transition(snapshot, event, caseScope);
}

/** A unit chart's next snapshot. Pure, as `transition` is. */
export function stepUnit(snapshot: UnitSnapshot, event: UnitEvent): UnitSnapshot {
  if (unitScope === null) {
    const { facts, shelf, plan } = snapshot.context;
    const self = createActor(unitMachine, { input: { facts, shelf, plan } });
    unitScope = { ...idle, self, system: self.system };
  }
  return unitMachine.transition(snapshot, event, unitScope);
}
