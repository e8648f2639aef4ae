/** Breadth first through every standing that a part of the machine can reach, each judged by the laws of the record. */
import { stepUnit } from '../../../machines/conduct/scope.ts';
import {
  asked,
  planStep,
  refusal,
  refusalOf,
  type UnitContext,
  type UnitEvent,
} from '../../../machines/seating/index.ts';
import type { StepId } from '../../../machines/contract/index.ts';
import { law12 } from '../fresh.ts';
import { CHEMISTRY } from '../judge.ts';
import { law1, law11, law2, law3, law4, law5, law6, law7 } from '../laws.ts';
import { NEVER } from '../never.ts';
import { actOf } from './act.ts';
import { ticks } from './events.ts';
import { keyOf, type Standing } from './standing.ts';

const LAWS = { law1, law2, law3, law4, law5, law6, law7, law11, law12 };
const REGIONS = ['where', 'intaglio', 'prep', 'field', 'cement'] as const;
/** What a sweep has to go through. */
export interface Part {
  readonly events: readonly UnitEvent[];
  /** The part's own steps: what they leave goes stale here, what others leave does in their part. */
  readonly steps: readonly StepId[];
  /** Other surfaces made ready by their planned steps, one real event after the other, as one move. */
  readonly others: readonly (readonly StepId[])[];
  readonly named: (what: string) => string;
  /**
   * Dwells that may run at once. A gate reads its own event's dwell and whether one works on the inside,
   * so what others run changes nothing; that an end and a begin lie between another's needs two.
   */
  readonly together: number;
  /** After so many standings it goes no further; Infinity for all. */
  readonly most: number;
}

/** What came of it. */
export interface Swept {
  readonly standings: number;
  /** Events tried, and those that were accepted and judged. */
  readonly tried: number;
  readonly judged: number;
  /** Each broken law once, with the way to it. */
  readonly broken: readonly string[];
  readonly states: ReadonlySet<string>;
}

function take(standing: Standing, event: UnitEvent): Standing | null {
  const { snapshot, acts } = standing;
  const next = stepUnit(snapshot, event);
  if (next.context.accepted === snapshot.context.accepted) return null;
  return { snapshot: next, acts: [...acts, actOf(event, acts.length)] };
}

/** The first step of a surface that is due. */
const dueOf = (context: UnitContext, surface: readonly StepId[]): StepId | undefined =>
  asked(context).find(
    (step) =>
      surface.includes(step) &&
      (context.steps[step] === undefined || context.steps[step] === 'again'),
  );

/** A surface made ready by what its plan asks; null when it is ready, or something is in the way. */
export function readied(from: Standing, surface: readonly StepId[]): Standing | null {
  let standing = from;
  for (let turns = 0; turns < 30; turns += 1) {
    const { context } = standing.snapshot;
    const step = dueOf(context, surface);
    if (step === undefined) return turns === 0 ? null : standing;
    const base = { at: 100_000_000, step, forced: [] };
    const dwell = planStep(context, step)?.dwell ?? null;
    if (dwell !== null && !context.dwells.some((one) => one.step === step)) {
      const begun = take(standing, { ...base, type: `begin.${step}` });
      if (begun === null) return null;
      standing = begun;
    }
    const ripe = ticks(standing, []).find(({ snapshot: { context: later } }) =>
      later.dwells.some(
        (one, n) => one.step === step && one !== standing.snapshot.context.dwells[n],
      ),
    );
    const done = take(ripe ?? standing, { ...base, type: `finish.${step}` });
    if (done === null) return null;
    standing = done;
  }
  return null;
}

/**
 * Whether a third kind would lie on the inside. A gate or a law asks whether any of what lies there is of some
 * kind, and a treatment takes each off by itself: what holds of every pair holds of every heap.
 */
function heaped(
  { contaminants }: UnitContext,
  more: string,
  named: (what: string) => string,
): boolean {
  const kinds = new Set(contaminants.map(named));
  return !kinds.has(named(more)) && kinds.size >= 2;
}

/** What the laws say of an accepted event; that a long dwell is noted is conduct's doing, which a sweep leaves out. */
function judge({ snapshot, acts }: Standing, event: UnitEvent): readonly string[] {
  const { facts, shelf, plan } = snapshot.context;
  const act = actOf(event, acts.length);
  return Object.entries(LAWS).flatMap(([name, law]) => {
    const how = law({ act, chair: { acts, unit: facts, shelf }, plan });
    return how === null || how.includes('nothing notes it') ? [] : [`${name}: ${how}`];
  });
}

/** Law 9 on a refusal: seconds for a dwell cut short, nothing offered that cannot be had. */
function refusedWrongly(context: UnitContext, event: UnitEvent): string | null {
  const id = refusalOf({ context, event });
  if (id === null) return 'refused without a reason';
  const { seconds, overridable, because } = refusal({ context, event }, id);
  if (CHEMISTRY.includes(id) && because === undefined) return `law9: ${id} without a reason`;
  if (id === 'dwell-too-short' && (seconds ?? 0) <= 0) return 'law9: no seconds left named';
  return overridable && NEVER.includes(id) ? `law9: ${id} offered for override` : null;
}

/** Goes through everything that can be reached from `starts`. */
export function explore(
  starts: readonly Standing[],
  { events, steps, others, named, together, most }: Part,
): Swept {
  const seen = new Set<string>();
  const states = new Set<string>();
  const broken = new Map<string, string>();
  const waiting: Standing[] = [];
  let [tried, judged] = [0, 0];
  const way = ({ acts }: Standing): string =>
    acts
      .slice(-60)
      .map(({ what, step, surface, contaminant }) => [what, step, surface, contaminant])
      .map((words) => words.filter((word) => word !== null).join(' '))
      .join(', ');
  const add = (standing: Standing): void => {
    const key = keyOf(standing, steps, named);
    if (seen.has(key)) return;
    seen.add(key);
    const { context, value } = standing.snapshot;
    const told: Record<string, unknown> = { ...value };
    for (const region of REGIONS) {
      states.add(`${region} ${context.now[region]}`);
      if (told[region] !== context.now[region]) {
        broken.set(`mirror ${region}`, `${region} is seen otherwise: ${way(standing)}`);
      }
    }
    waiting.push(standing);
  };
  starts.forEach(add);
  for (let n = 0; n < waiting.length; n += 1) {
    const standing = waiting[n];
    if (standing === undefined || n >= most) break;
    const { context } = standing.snapshot;
    for (const event of events) {
      const { step, type } = event;
      const dwells = step !== null && (planStep(context, step)?.dwell ?? null) !== null;
      if (type.startsWith('begin.') && dwells && context.dwells.length >= together) continue;
      if (event.type === 'soil.intaglio' && heaped(context, event.contaminant, named)) continue;
      tried += 1;
      const next = refusalOf({ context, event }) === null ? take(standing, event) : null;
      if (next === null) {
        const wrong = refusedWrongly(context, event);
        if (wrong !== null) broken.set(wrong, `${wrong}: ${type} after ${way(standing)}`);
        continue;
      }
      judged += 1;
      for (const how of judge(standing, event)) {
        if (!broken.has(how)) broken.set(how, `${how}: ${type} after ${way(standing)}`);
      }
      add(next);
    }
    ticks(standing, steps).forEach(add);
    for (const surface of others) {
      const ready = readied(standing, surface);
      if (ready !== null) add(ready);
    }
  }
  return { standings: seen.size, tried, judged, broken: [...broken.values()], states };
}
