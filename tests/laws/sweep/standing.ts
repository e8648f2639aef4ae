/** One standing of a unit in the sweep, in a time that stands still: every clock is moved by itself. */
import { planStep, staleAt, type UnitContext } from '../../../machines/seating/index.ts';
import { type StepId, STEPS } from '../../../machines/contract/index.ts';
import type { UnitSnapshot } from '../../../machines/conduct/state.ts';
import type { Act } from '../record.ts';
import {
  type Chair,
  fieldDry,
  intaglioFault,
  lyingAgent,
  peroxideLeft,
  place,
  prepClean,
  prepReady,
} from '../surfaces.ts';
import { remains, textured } from '../surfaces.ts';

/** The one moment of the sweep, ms: late enough for every clock to have begun before it. */
export const NOW = 100_000_000;

export interface Standing {
  readonly snapshot: UnitSnapshot;
  /** What was carried out on the way here, as the record would have it. */
  readonly acts: readonly Act[];
}

/** Steps that a gate asks to be done; and those it asks to be done or left out. The rest is for the pointer alone. */
const DONE: readonly StepId[] = ['seat', 'cure-occlusal', 'cure-buccal', 'cure-lingual'];
export const STANDS: readonly StepId[] = [
  ...(['prep-roughen', 'core-primer', 'abutment-primer', 'joint-finish', 'screw-in'] as const),
  'torque',
];

const between = (first: StepId, last: StepId): readonly StepId[] =>
  STEPS.slice(STEPS.indexOf(first), STEPS.indexOf(last) + 1);
const INSIDE = between('intaglio-rinse', 'primer-dry');
const TOOTH_SIDE: readonly StepId[] = between('pumice', 'prep-dry').filter(
  (step) => step !== 'dry-check',
);

const servedMs = ({ startedAt, creditMs }: UnitContext['dwells'][number]): number =>
  NOW - startedAt + creditMs;

/** Short or right; long is right with a note, which is no guard's business, and is tried at the end of each dwell. */
export const phaseOf = (context: UnitContext, dwell: UnitContext['dwells'][number]): string => {
  const least = planStep(context, dwell.step)?.dwell?.minS ?? 0;
  return servedMs(dwell) < least * 1000 ? 'short' : 'right';
};

export const overdue = ({ mixedAt, plan }: UnitContext): boolean =>
  mixedAt !== null && NOW - mixedAt > plan.cement.workingS * 1000;

/** Steps of a plan as the record would have them, begun and ended. */
const asActs = (steps: readonly StepId[], from: number): readonly Act[] =>
  steps.flatMap((step, n) =>
    (['begin', 'finish'] as const).map((what) => ({
      n: from + n,
      at: NOW,
      tooth: '',
      step,
      surface: null,
      contaminant: null,
      readBack: true,
      overrode: [],
      deviation: null,
      what,
    })),
  );

/**
 * What the second statement would say once the rest of a surface's plan were done, from each of its steps
 * on: two ways that look alike to it now and would not then are kept apart.
 */
function futures(chair: Chair, planned: readonly StepId[]): readonly unknown[] {
  const after = (steps: readonly StepId[]): Chair => ({
    ...chair,
    acts: [...chair.acts, ...asActs(steps, chair.acts.length)],
  });
  const tooth = planned.filter((step) => TOOTH_SIDE.includes(step));
  const inside = planned.filter((step) => INSIDE.includes(step));
  return [
    ...tooth.map((_, n) => prepReady(after(tooth.slice(n)), planned)),
    ...inside.map((_, n) => intaglioFault(after(inside.slice(n)))),
  ];
}

/**
 * What tells standings apart: all that a gate or an action of the machine reads, and all that the
 * second statement of the laws says of the way here. Two ways that agree in both can't be told apart
 * by either from here on. `steps` are the part's own: what others leave is always fresh in it. `named`
 * gives a contaminant its class.
 */
export function keyOf(
  { snapshot, acts }: Standing,
  steps: readonly StepId[],
  named: (what: string) => string,
): string {
  const { context } = snapshot;
  const { facts, shelf, plan, now } = context;
  const chair = { acts, unit: facts, shelf };
  const planned = plan.steps.map(({ id }) => id);
  const waits = now.cement === 'mixed' || now.cement === 'loaded';
  const classes = (all: readonly string[]): string[] => [...new Set(all.map(named))].toSorted();
  return JSON.stringify([
    Object.values(now),
    classes(context.contaminants),
    context.texture,
    context.intaglioAgent,
    context.prepAgent,
    context.peroxide,
    context.excused,
    context.dwells.map((dwell) => `${dwell.step} ${phaseOf(context, dwell)}`).toSorted(),
    waits && overdue(context),
    context.made
      .filter(({ step }) => steps.includes(step))
      .map((made) => `${made.step} ${NOW > staleAt(context, made)} ${made.used.join(' ')}`)
      .toSorted(),
    DONE.filter((step) => context.steps[step] === 'done'),
    STANDS.filter((step) => ['done', 'skipped'].includes(context.steps[step] ?? '')),
    place(chair),
    lyingAgent(chair),
    classes(remains(chair).map(({ what }) => what)),
    textured(chair),
    intaglioFault(chair),
    peroxideLeft(chair, plan),
    prepReady(chair, planned),
    prepClean(chair, planned),
    fieldDry(chair, planned),
    ...futures(chair, planned),
  ]);
}
