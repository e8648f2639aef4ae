/** Everything that can be tried in a standing of the sweep, and every clock that can go on. */
import {
  planStep,
  staleAt,
  type UnitContext,
  type UnitEvent,
} from '../../../machines/seating/index.ts';
import type { Contaminant, StepId } from '../../../machines/contract/index.ts';
import type { Act } from '../record.ts';
import { NOW, overdue, phaseOf, STANDS, type Standing } from './standing.ts';

type Bare = UnitEvent extends infer Event
  ? Event extends UnitEvent
    ? Omit<Event, 'at' | 'forced' | 'step'>
    : never
  : never;

const event = (bare: Bare, step: StepId | null = null): UnitEvent => ({
  ...bare,
  at: NOW,
  step,
  forced: [],
});

const LANDING = {
  prep: ['saliva', 'peroxide'],
  field: ['saliva'],
} as const satisfies Readonly<Record<'prep' | 'field', readonly Contaminant[]>>;

/** The begin, the end and the early end of each step; each class of contaminant; giving up. */
export function eventsOf(
  steps: readonly StepId[],
  contaminants: readonly Contaminant[],
  surfaces: readonly ('intaglio' | 'prep' | 'field')[],
): readonly UnitEvent[] {
  return [
    ...steps.flatMap((step) => [
      event({ type: `begin.${step}` }, step),
      event({ type: `finish.${step}` }, step),
      event({ type: `short.${step}` }, step),
    ]),
    // Leaving a step out moves the pointer and no surface: it is tried where a gate asks for the step.
    ...steps
      .filter((step) => STANDS.includes(step))
      .map((step) => event({ type: `skip.${step}` }, step)),
    ...surfaces.flatMap((surface) =>
      // What lands on the tooth side or in the field is all one to the machine, but for peroxide on the tooth.
      (surface === 'intaglio' ? contaminants : LANDING[surface]).map((contaminant) =>
        event({ type: `soil.${surface}`, contaminant }),
      ),
    ),
    event({ type: 'counts-clean' }),
    event({ type: 'start-over' }),
  ];
}

/** The acts with the time of those that match moved to `at`: one clock has gone on, the others stand. */
const moved = (acts: readonly Act[], at: number, matches: (act: Act) => boolean): readonly Act[] =>
  acts.map((act) => (matches(act) ? { ...act, at } : act));

function withContext({ snapshot }: Standing, context: Partial<UnitContext>): Standing['snapshot'] {
  return { ...snapshot, context: { ...snapshot.context, ...context } };
}

/** A dwell that has been served: its least, and long past its most. */
function served(standing: Standing, step: StepId, seconds: number): Standing {
  const { context } = standing.snapshot;
  const window = planStep(context, step)?.dwell;
  const start = NOW - seconds * 1000;
  const dwells = context.dwells.map((dwell) =>
    dwell.step === step ? { ...dwell, startedAt: start, creditMs: 0 } : dwell,
  );
  // The wait for the gel or the set counts from the mix.
  const from = window?.from === 'mix' ? 'mix' : step;
  const last = standing.acts.findLastIndex((act) => act.what === 'begin' && act.step === from);
  return {
    snapshot: withContext(standing, { dwells }),
    acts: standing.acts.map((act, n) => (n === last ? { ...act, at: start } : act)),
  };
}

/** Every clock that runs, gone on by itself to its next side: dwells served, cement past, what these steps left stale. */
export function ticks(standing: Standing, steps: readonly StepId[]): readonly Standing[] {
  const { context } = standing.snapshot;
  const dwells = context.dwells
    .filter((dwell) => phaseOf(context, dwell) === 'short')
    .map(({ step }) => served(standing, step, planStep(context, step)?.dwell?.minS ?? 0));
  const waits = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const past = NOW - (context.plan.cement.workingS + 1) * 1000;
  const cement: Standing[] =
    waits && !overdue(context)
      ? [
          {
            snapshot: withContext(standing, { mixedAt: past }),
            acts: moved(
              standing.acts,
              past,
              ({ what, step }) => what === 'begin' && step === 'mix',
            ),
          },
        ]
      : [];
  const stale = context.made
    .filter((made) => steps.includes(made.step) && NOW <= staleAt(context, made))
    .map((made): Standing => {
      const at = NOW - (staleAt(context, made) - made.at) - 1000;
      const all = context.made.map((one) => (one.step === made.step ? { ...one, at } : one));
      return {
        snapshot: withContext(standing, { made: all }),
        acts: moved(standing.acts, at, ({ what, step }) => what === 'finish' && step === made.step),
      };
    });
  return [...dwells, ...cement, ...stale];
}
