export {
  BONDING_MODES,
  CAUTIONS,
  CEMENT_CLASSES,
  CONTAMINANTS,
  FINDINGS,
  MATERIALS,
  REASONS,
  ROLES,
  STEPS,
  SUBSTRATES,
  SURFACES,
  TEETH,
  UNIT_KINDS,
  WAYS,
} from './terms.ts';
export type {
  BondingMode,
  CautionId,
  CementClass,
  Contaminant,
  Finding,
  Material,
  Reason,
  Role,
  StepId,
  Substrate,
  Surface,
  UnitKind,
  Way,
} from './terms.ts';
export { CaseFile, Cement, Prep, Shelf, Span, TASKS, UnitFacts } from './case.ts';
export type { CaseInput, OwnNumber, Task } from './case.ts';
export { Command, Stamp } from './command.ts';
export type { CommandType } from './command.ts';
export { CAUSES, NEVER_OVERRIDDEN, REFUSALS, Refusal, UNSUITED } from './refusal.ts';
export type { CauseId, RefusalId } from './refusal.ts';
export { Call, HEARD_BADLY } from './call.ts';
export type { CallId } from './call.ts';
export { Dwell, GoodFor, Mark, Plan, PlanStep, Retention, UnitPlan } from './plan.ts';
export type { Live } from './live.ts';
export { Checkpoint, Closing, Deviation, Entry, Header, Line, Outcome } from './entry.ts';
export type { EntryLine, HeaderLine, WrittenLine } from './entry.ts';
export type { ChairView, ClockView, DwellView, StepStatus } from './view.ts';
