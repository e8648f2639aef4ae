import { initialTransition, type SnapshotFrom } from 'xstate';
import type { Call, CaseFile, CautionId, Plan, StepId } from '../contract/index.ts';
import { caseMachine, type UnitContext, unitMachine } from '../seating/index.ts';

export type UnitSnapshot = SnapshotFrom<typeof unitMachine>;
export type CaseSnapshot = SnapshotFrom<typeof caseMachine>;

/** A state that an undo can return to. */
export interface UndoPoint {
  /** The units that the command changed, as they were before it. */
  readonly units: Readonly<Record<string, UnitSnapshot>>;
  readonly active: string;
  /** The unit and the step the command was about. */
  readonly tooth: string;
  readonly step: StepId | null;
  /** True when what would be undone is a reported contamination: withdrawing that is a deviation. */
  readonly contamination: boolean;
}

/** Everything about an appointment under way: what replaying its record gives. */
export interface CaseState {
  readonly case: CaseFile;
  readonly plan: Plan;
  readonly units: Readonly<Record<string, UnitSnapshot>>;
  readonly desk: CaseSnapshot;
  /** Tooth of the unit worked on. */
  readonly active: string;
  /** Case time of the last command, milliseconds. */
  readonly at: number;
  readonly undo: readonly UndoPoint[];
  readonly deviations: number;
  /** Cautions already said aloud, so that they are said once. */
  readonly said: readonly CautionId[];
  /** What was called last, for "say again". */
  readonly lastCalls: readonly Call[];
}

/** The context of a unit. @throws when the case has no such unit: callers check first. */
export function unitOf(state: CaseState, tooth: string): UnitContext {
  const snapshot = state.units[tooth];
  if (snapshot === undefined) throw new Error(`The case has no unit on tooth ${tooth}`);
  return snapshot.context;
}

/** The units of a case in the order in which they are seated. */
export function inOrder({ order, units }: Plan): readonly string[] {
  const teeth = units.map(({ tooth }) => tooth);
  const seated = order.flat().filter((tooth) => teeth.includes(tooth));
  return [...seated, ...teeth.filter((tooth) => !seated.includes(tooth))];
}

/** How many dwells run on all units together. */
export function dwellsRunning(state: CaseState): number {
  return Object.values(state.units).reduce((sum, { context }) => sum + context.dwells.length, 0);
}

/** A case as it stands when opened: nothing said, nothing done. */
export function initialState(caseFile: CaseFile, plan: Plan): CaseState {
  const units: Record<string, UnitSnapshot> = {};
  for (const unitPlan of plan.units) {
    const facts = caseFile.units.find((unit) => unit.tooth === unitPlan.tooth);
    if (facts === undefined) throw new Error(`The plan has tooth ${unitPlan.tooth}, the case not`);
    const input = { facts, shelf: caseFile.shelf, plan: unitPlan };
    [units[unitPlan.tooth]] = initialTransition(unitMachine, input);
  }
  const [desk] = initialTransition(caseMachine);
  const [active] = inOrder(plan);
  if (active === undefined) throw new Error('A plan has at least one unit');
  return {
    case: caseFile,
    plan,
    units,
    desk,
    active,
    at: 0,
    undo: [],
    deviations: 0,
    said: [],
    lastCalls: [],
  };
}
