import type { Dwell, Entry, PlanStep, StepId, UnitPlan } from '../../contract/index.ts';
import { INTAGLIO_STEPS, PREP_STEPS, servedMs } from '../../seating/index.ts';
import type { RunningDwell } from '../../seating/index.ts';

/** A dwell that runs, with the entry that began it. */
export interface Begun extends RunningDwell {
  readonly entry: number;
}

/** What a unit's clocks stand at. Replaced, never changed, so that an undo can bring it back. */
export interface Clocks {
  readonly dwells: readonly Begun[];
  readonly mixedAt: number | null;
  /** Cement is in the restoration, and it is not seated. */
  readonly loaded: boolean;
  /** It is down: what lands on the prep or in the field is out of reach of what is under it. */
  readonly seated: boolean;
  /** Pastes that were begun in the mouth: ending them is no second one. */
  readonly pastes: readonly StepId[];
}

export const NO_CLOCKS: Clocks = {
  dwells: [],
  mixedAt: null,
  loaded: false,
  seated: false,
  pastes: [],
};

/** Steps that wet the field: a dry check that is being watched ends with them. */
const WETTING: readonly StepId[] = ['prep-clean', 'pumice', 'abutment-clean', 'prep-roughen'];
/** Put in with the crown on the tooth: what they leave is there from the begin on. */
export const PASTES: readonly StepId[] = ['fit-paste', 'shade'];

const without = (clocks: Clocks, steps: readonly StepId[]): Clocks => ({
  ...clocks,
  dwells: clocks.dwells.filter(({ step }) => !steps.includes(step)),
});

/** The plan's step by id, the spare ones too; null when this unit has none of it. */
export const stepOf = (plan: UnitPlan, id: StepId): PlanStep | null =>
  plan.steps.find((step) => step.id === id) ?? plan.spare.find((step) => step.id === id) ?? null;

export const windowOf = (plan: UnitPlan, id: StepId): Dwell | null =>
  stepOf(plan, id)?.dwell ?? null;

/** The clocks after a step has begun. */
export function begin(clocks: Clocks, plan: UnitPlan, step: StepId, entry: Entry): Clocks {
  const { n, stamp } = entry;
  const wetted = WETTING.includes(step) ? without(clocks, ['dry-check']) : clocks;
  const soiled =
    step === 'try-in' ? without(wetted, [...INTAGLIO_STEPS, ...PREP_STEPS, 'dry-check']) : wetted;
  const window = windowOf(plan, step);
  const mixedAt = step === 'mix' ? stamp.at : soiled.mixedAt;
  const pastes = PASTES.includes(step) ? [...soiled.pastes, step] : soiled.pastes;
  const loaded = step === 'load' || (soiled.loaded && step !== 'seat');
  const seated = soiled.seated || step === 'seat';
  const next = { ...soiled, mixedAt, loaded, seated, pastes: step === 'try-in' ? [] : pastes };
  if (window === null) return next;
  const creditMs = window.from === 'mix' && mixedAt !== null ? stamp.at - mixedAt : 0;
  const dwell = { step, startedAt: stamp.at, creditMs, heldMs: 0, heldAt: null, addedS: 0 };
  return {
    ...next,
    dwells: [...next.dwells.filter((one) => one.step !== step), { ...dwell, entry: n }],
  };
}

/** The clocks after a step has ended. */
export function end(clocks: Clocks, step: StepId): Clocks {
  const wetted = WETTING.includes(step) ? without(clocks, ['dry-check']) : clocks;
  const pastes = wetted.pastes.filter((one) => one !== step);
  return { ...without(wetted, [step]), pastes };
}

/** The clocks after something has landed: what was being served there counts no more, cement there is lost. */
export function soil(clocks: Clocks, surface: 'intaglio' | 'prep' | 'field'): Clocks {
  if (clocks.seated) return clocks;
  if (surface === 'field') return without(clocks, ['dry-check']);
  if (surface === 'prep') return without(clocks, PREP_STEPS);
  const rest = without(clocks, INTAGLIO_STEPS);
  return clocks.loaded ? { ...rest, mixedAt: null, loaded: false } : rest;
}

/** Everything that can be held is, or goes on. */
export function hold(clocks: Clocks, plan: UnitPlan, at: number): Clocks {
  const dwells = clocks.dwells.map((dwell) =>
    dwell.heldAt === null && windowOf(plan, dwell.step)?.holdable === true
      ? { ...dwell, heldAt: at }
      : dwell,
  );
  return { ...clocks, dwells };
}

export function release(clocks: Clocks, at: number): Clocks {
  const dwells = clocks.dwells.map((dwell) =>
    dwell.heldAt === null
      ? dwell
      : { ...dwell, heldMs: dwell.heldMs + (at - dwell.heldAt), heldAt: null },
  );
  return { ...clocks, dwells };
}

/** The running dwell of a step; null when none runs. */
export const runs = (clocks: Clocks, step: StepId): Begun | null =>
  clocks.dwells.find((dwell) => dwell.step === step) ?? null;

/** Seconds a dwell was served at case time `at`, to the millisecond. */
export const servedS = (dwell: RunningDwell, at: number): number => servedMs(dwell, at) / 1000;
