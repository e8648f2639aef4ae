import type { SnapshotFrom } from 'xstate';
import { getShortestPaths } from 'xstate/graph';
import type { RefusalId, StepId } from '../../machines/contract/index.ts';
import {
  gate,
  planStep,
  refusalOf,
  RULES,
  spoilsAt,
  type UnitContext,
  type UnitEvent,
  unitMachine,
} from '../../machines/seating/index.ts';
import type { Operatory } from '../chair/operatory.ts';
import { type Act, deedsOf } from '../laws/record.ts';

export type Standing = SnapshotFrom<typeof unitMachine>;
type Bare = UnitEvent extends infer Event
  ? Event extends UnitEvent
    ? Omit<Event, 'at' | 'forced' | 'step'>
    : never
  : never;

const event = (bare: Bare, at: number, step: StepId | null = null): UnitEvent => ({
  ...bare,
  at,
  step,
  forced: [],
});

/** A time at which everything that runs has begun. */
const clock = ({ dwells, mixedAt }: UnitContext): number =>
  Math.max(0, mixedAt ?? 0, ...dwells.map(({ startedAt }) => startedAt)) + 1000;

/** The moments that matter for what runs, and for cement that waits: too early, right, too late. */
function moments(context: UnitContext, step: StepId): number[] {
  const now = clock(context);
  const spoils = spoilsAt(context);
  const loose = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const waits = spoils === null || !loose ? [now] : [now, spoils, spoils + 1000];
  const dwell = context.dwells.find((one) => one.step === step);
  const window = planStep(context, step)?.dwell ?? null;
  if (dwell === undefined || window === null) return waits;
  const begun = dwell.startedAt - dwell.creditMs;
  const end = window.maxS ?? window.targetS;
  return [
    Math.max(now, begun + (window.minS - 1) * 1000),
    Math.max(now, begun + window.targetS * 1000),
    Math.max(now, begun + (end + 1) * 1000),
  ];
}

/** Everything that can be tried with these steps from a standing. */
export function eventsFor(context: UnitContext, steps: readonly StepId[]): UnitEvent[] {
  const now = clock(context);
  const soils = (['saliva', 'blood', 'acid'] as const).map((contaminant) =>
    event({ type: 'soil.intaglio', contaminant }, now),
  );
  return [
    ...steps.flatMap((step) =>
      moments(context, step).flatMap((at) => [
        event({ type: `begin.${step}` }, at, step),
        event({ type: `finish.${step}` }, at, step),
        event({ type: `short.${step}` }, at, step),
      ]),
    ),
    ...soils,
    event({ type: 'soil.prep', contaminant: 'saliva' }, now),
    event({ type: 'soil.field', contaminant: 'saliva' }, now),
    event({ type: 'counts-clean' }, now),
    event({ type: 'start-over' }, now),
  ];
}

/** What the walk tells apart: regions, what lies on the inside, what runs, and what the cement waits for. */
export function projected({ context }: Standing): string {
  const { now, contaminants, texture, intaglioAgent, prepAgent, dwells, steps } = context;
  const kept = (['seat', 'cure-occlusal', 'cure-buccal', 'cure-lingual'] as const).map(
    (step) => steps[step] === 'done',
  );
  const lying = contaminants.filter((one) => one !== 'glove').toSorted();
  // With their times: of two ways to a standing, either then explains it.
  const running = dwells.map(({ step, startedAt }) => [step, startedAt]);
  const clocks = [context.mixedAt, running];
  return JSON.stringify([now, lying, texture, intaglioAgent, prepAgent, clocks, kept]);
}

/** An accepted event as the record would have it; what conduct asks first is taken as asked. */
export function actOf(of: UnitEvent, n: number): Act {
  const [what, surface] = of.type.split('.');
  const deviation =
    what === 'short'
      ? ({
          kind: 'short',
          step: of.step,
          reason: 'clinical-judgement',
          refusal: null,
          servedS: null,
        } as const)
      : null;
  const base = { n, at: of.at, tooth: '', step: of.step, overrode: [], readBack: true };
  const none = { surface: null, contaminant: null, deviation };
  if (what === 'begin' || what === 'finish' || what === 'short') return { ...base, ...none, what };
  if (what === 'counts-clean' || what === 'start-over') return { ...base, ...none, what };
  if (of.type === 'soil.intaglio' || of.type === 'soil.prep' || of.type === 'soil.field') {
    const where = surface === 'intaglio' || surface === 'prep' ? surface : 'field';
    return { ...base, what: 'soil', surface: where, contaminant: of.contaminant, deviation };
  }
  return { ...base, ...none, what: 'other' };
}

/** A second dwell while one runs, a second mix on a spoilt one: left to the random sequences, or the walk has no end. */
function besides(context: UnitContext, { type, step }: UnitEvent): boolean {
  if (type === 'begin.mix' && context.mixedAt !== null) return true;
  if (step === null || !type.startsWith('begin.') || context.dwells.length === 0) return false;
  return (planStep(context, step)?.dwell ?? null) !== null;
}

/** Where a walk went. */
export interface Walk {
  readonly standings: readonly Standing[];
  /** Acts that lead to each standing, the operatory's own first. */
  readonly acts: readonly (readonly Act[])[];
}

/** Every standing that these steps can reach from where the operatory stands, each by a shortest path. */
export function walk(chair: Operatory, tooth: string, steps: readonly StepId[]): Walk {
  const from = chair.state.units[tooth];
  if (from === undefined) throw new Error(`The case has no unit on tooth ${tooth}`);
  const before = deedsOf(chair.told).map(({ act }) => act);
  const paths = getShortestPaths(unitMachine, {
    fromState: from,
    input: { facts: from.context.facts, shelf: from.context.shelf, plan: from.context.plan },
    events: (standing) =>
      eventsFor(standing.context, steps).filter(
        (one) =>
          refusalOf({ context: standing.context, event: one }) === null &&
          !besides(standing.context, one),
      ),
    serializeState: projected,
    serializeEvent: (one) => JSON.stringify(one),
    limit: 4_000_000,
  });
  return {
    standings: paths.map(({ state }) => state),
    acts: paths.map(({ steps: path }) => [
      ...before,
      ...path
        .filter(({ event: one }) => !one.type.startsWith('xstate.'))
        .map(({ event: one }, n) => actOf(one, n)),
    ]),
  };
}

/** What a gate can answer, as far as its rules know: every reason a rule gives, and yes. */
export function answers(of: UnitEvent, context: UnitContext): RefusalId | 'accepted' {
  return refusalOf({ context, event: of }) ?? 'accepted';
}

/** The rules of a gate that have an answer of their own in this standing, whether or not one before it speaks first. */
export function speaking(of: UnitEvent, context: UnitContext): RefusalId[] {
  return gate(of.type).flatMap((name) => RULES[name]({ context, event: of }) ?? []);
}
