import type { ChairView, DwellView, StepId, StepStatus } from '../contract/index.ts';
import {
  asked,
  nextStep,
  planStep,
  servedMs,
  spoilsAt,
  type UnitContext,
  windowOf,
} from '../seating/index.ts';
import { clocksOf } from './clocks.ts';
import { type CaseState, unitOf } from './state.ts';

function dwellViews(context: UnitContext, at: number): DwellView[] {
  return context.dwells.flatMap((dwell) => {
    const window = windowOf(context, dwell.step);
    const step = planStep(context, dwell.step);
    if (window === null || step === null) return [];
    const elapsedMs = servedMs(dwell, at);
    const maxMs = window.maxS === null ? null : window.maxS * 1000;
    const early = elapsedMs < window.minS * 1000;
    const long = maxMs !== null && elapsedMs > maxMs;
    return [
      {
        step: dwell.step,
        title: step.title,
        tooth: context.facts.tooth,
        elapsedMs,
        minMs: window.minS * 1000,
        targetMs: window.targetS * 1000,
        maxMs,
        phase: early ? 'short' : long ? 'long' : 'right',
        held: dwell.heldAt !== null,
      } satisfies DwellView,
    ];
  });
}

/** `here` is the step to do, which takes as long to find as all else here. */
function stepStatus(context: UnitContext, id: StepId, here: StepId | null): StepStatus {
  if (context.dwells.some((dwell) => dwell.step === id)) return 'running';
  if (here === id) return 'now';
  return context.steps[id] ?? 'open';
}

function seatByMs(context: UnitContext, at: number): number | null {
  const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const end = spoilsAt(context);
  return waiting && end !== null ? end - at : null;
}

function paceOf(state: CaseState): ChairView['pace'] {
  for (const pace of ['paused', 'stopped', 'closed'] as const) {
    if (state.desk.matches({ pace })) return pace;
  }
  return 'going';
}

/** What the chairside screen shows of a case at case time `at` (milliseconds). Plain data. */
export function view(state: CaseState, at: number): ChairView {
  const context = unitOf(state, state.active);
  const { plan, now } = context;
  const here = nextStep(context);
  const step = here === null ? null : planStep(context, here);
  const order = asked(context);
  const after =
    here === null
      ? undefined
      : order
          .slice(order.indexOf(here) + 1)
          .find((id) => context.steps[id] === undefined || context.steps[id] === 'again');
  const then = after === undefined ? null : planStep(context, after);
  const texts = new Map(state.plan.cautions.map(({ id, text }) => [id, text]));
  return {
    reference: state.case.reference,
    invented: state.case.invented,
    pace: paceOf(state),
    unit: {
      tooth: plan.tooth,
      name: plan.toothName,
      material: plan.material,
      materialName: plan.materialName,
    },
    units: state.plan.units.map((unit) => ({
      tooth: unit.tooth,
      name: unit.toothName,
      finished: nextStep(unitOf(state, unit.tooth)) === null,
      active: unit.tooth === state.active,
    })),
    step:
      step === null
        ? null
        : {
            id: step.id,
            title: step.title,
            todo: step.todo,
            gate: step.gate,
            who: step.who,
            cautions: step.cautions.map((id) => ({ id, text: texts.get(id) ?? '' })),
            targetS: windowOf(context, step.id)?.targetS ?? null,
          },
    then: then === null ? null : { id: then.id, title: then.title },
    steps: order.map((id) => ({
      id,
      title: planStep(context, id)?.title ?? id,
      status: stepStatus(context, id, here),
    })),
    dwells: Object.keys(state.units).flatMap((tooth) => dwellViews(unitOf(state, tooth), at)),
    clocks: Object.keys(state.units)
      .flatMap((tooth) => clocksOf(unitOf(state, tooth), at))
      .filter(({ clock, tooth }) => clock !== 'seat-by' || tooth !== state.active)
      .toSorted((one, other) => one.leftMs - other.leftMs),
    seatByMs: seatByMs(context, at),
    surfaces: {
      where: now.where,
      intaglio: now.intaglio,
      contaminants: context.contaminants,
      prep: now.prep,
      field: now.field,
      cement: now.cement,
    },
    asked: state.desk.context.pending?.call ?? null,
    refusal: state.desk.context.refused?.refusal ?? null,
    deviations: state.deviations,
  };
}
