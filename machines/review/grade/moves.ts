import { STEPS } from '../../contract/index.ts';
import type { Header, StepId } from '../../contract/index.ts';
import { INTAGLIO_STEPS } from '../../seating/index.ts';
import type { Arc, ProcessNet } from '../net/process-net.ts';
import type { Alignment, GradedDeviation, Move } from '../deviation.ts';
import type { Activity, Trace } from '../trace/activity.ts';
import { planStepOf, PRACTICE, titleOf } from './words.ts';

/** Agents that stand for each other: one of them in another's place is the wrong one. */
const RIVALS: readonly (readonly StepId[])[] = [
  ['cleaner', 'acid-clean', 'abrade', 'porcelain-etch'],
  ['silane', 'zirconia-primer', 'metal-primer'],
  ['core-primer', 'abutment-primer'],
  ['prep-moist', 'prep-dry'],
  ['tooth-etch', 'prep-roughen'],
];
const AGENTS: readonly StepId[] = [
  ...RIVALS.flat(),
  'cleaner-rinse',
  'acid-clean-rinse',
  'porcelain-etch-rinse',
  'tooth-etch-rinse',
  'bond',
];

const NOTHING = { refusal: null, measured: null } as const;

/** A label as tooth and step; the step is null for a contamination or a start over. */
export function readLabel(label: string): {
  readonly tooth: string | null;
  readonly step: StepId | null;
} {
  const whole = STEPS.find((step) => step === label);
  if (whole !== undefined) return { tooth: null, step: whole };
  const [tooth = '', ...rest] = label.split(' ');
  const name = rest.join(' ');
  return { tooth, step: STEPS.find((step) => step === name) ?? null };
}

interface Amiss {
  readonly move: Move;
  readonly at: number;
  readonly tooth: string | null;
  readonly step: StepId | null;
}

/** What grading asks of the net an alignment was made with. */
export interface Moved {
  /** Nothing moves: a step done once more. */
  readonly again: (move: Move) => boolean;
  /** The place it leaves is one where the gentle cleaning would do. */
  readonly gentle: (move: Move) => boolean;
}

/** Looks transitions up by their ids. */
export function movedBy({ components, transitions }: ProcessNet): Moved {
  const byId = new Map(transitions.map((transition) => [transition.id, transition]));
  const arcsOf = ({ transition }: Move): readonly Arc[] =>
    (transition === null ? undefined : byId.get(transition))?.arcs ?? [];
  return {
    again: (move) => arcsOf(move).every(({ from, to }) => from === to),
    gentle: (move) =>
      arcsOf(move).some(({ component, from }) => {
        const { name, places } = components[component] ?? { name: '', places: [] };
        return name.endsWith(' intaglio') && /^(dirty|rinsed) soiled$/.test(places[from] ?? '');
      }),
  };
}

/** The steps of the same unit on either side of a move, in words: where the plan has it. */
function placeOf(header: Header, moves: readonly Move[], { at, tooth }: Amiss): string {
  const near = (list: readonly Move[]): string | null => {
    for (const { kind, activity } of list) {
      if (activity === null || kind === 'log') continue;
      const other = readLabel(activity);
      if (other.step === null || (tooth !== null && other.tooth !== tooth)) continue;
      return titleOf(header, other.tooth, other.step);
    }
    return null;
  };
  const before = near(moves.slice(0, at).toReversed());
  const after = near(moves.slice(at + 1));
  if (before === null) return after === null ? 'once' : `before "${after}"`;
  return after === null ? `after "${before}"` : `after "${before}", before "${after}"`;
}

const sourceOf = ({ plan }: Header, { tooth, step }: Amiss): string =>
  (step === null ? null : planStepOf(plan, tooth, step)?.dwell?.source) ?? PRACTICE;

/** Why a step is missing: it was skipped, the surface was counted as clean, or nothing tells. */
function absence(
  trace: Trace,
  moves: readonly Move[],
  { tooth, step, at }: Amiss,
): { readonly found: string; readonly entries: readonly number[] } {
  const skip = trace.skipped.findLast((each) => each.step === step && each.tooth === tooth);
  if (skip !== undefined) {
    const reason = skip.reason === null ? '' : `: ${skip.reason.replaceAll('-', ' ')}`;
    return { found: `skipped${reason}`, entries: [skip.entry] };
  }
  const claim = trace.claimed.findLast(
    (each) => each.what === 'counted-clean' && each.tooth === tooth,
  );
  if (claim !== undefined && step !== null && INTAGLIO_STEPS.includes(step)) {
    return { found: 'counted as clean instead', entries: [claim.entry] };
  }
  const after = trace.closed || moves.slice(at + 1).some(({ entry }) => entry !== null);
  return { found: after ? 'not in the record' : 'the record ends before it', entries: [] };
}

/** The plan's own cleaning where the cheapest explanation took another that would have done too. */
function asPlanned(header: Header, moved: Moved, one: Amiss): Amiss {
  const unit = header.plan.units.find(({ tooth }) => tooth === one.tooth);
  const [cleanings = []] = RIVALS;
  if (unit === undefined || one.step === null || !cleanings.includes(one.step)) return one;
  if (!moved.gentle(one.move) || unit.steps.some(({ id }) => id === one.step)) return one;
  const own = unit.steps.find(({ id }) => cleanings.includes(id));
  return own === undefined ? one : { ...one, step: own.id };
}

function notDone(
  header: Header,
  trace: Trace,
  moves: readonly Move[],
  one: Amiss,
): GradedDeviation {
  const { tooth, step } = one;
  const title = step === null ? (one.move.activity ?? '') : titleOf(header, tooth, step);
  return {
    grade: 'not done',
    tooth,
    step,
    ...absence(trace, moves, one),
    asked: `${title}, ${placeOf(header, moves, one)}`,
    source: sourceOf(header, one),
    ...NOTHING,
  };
}

/** Steps said to be skipped that the cheapest explanation does without. */
function skippedToo(
  header: Header,
  trace: Trace,
  told: readonly GradedDeviation[],
): readonly GradedDeviation[] {
  return trace.skipped
    .filter(
      ({ tooth, step, entry }) =>
        !told.some((one) => one.step === step && one.tooth === tooth) &&
        !trace.activities.some(
          (one) => one.step === step && one.tooth === tooth && one.entry > entry,
        ),
    )
    .map(({ tooth, step, entry, reason }): GradedDeviation => {
      const because = reason === null ? '' : `: ${reason.replaceAll('-', ' ')}`;
      return {
        grade: 'not done',
        tooth,
        step,
        entries: [entry],
        asked: titleOf(header, tooth, step),
        found: `skipped${because}`,
        source: planStepOf(header.plan, tooth, step)?.dwell?.source ?? PRACTICE,
        ...NOTHING,
      };
    });
}

function misplaced(
  header: Header,
  moves: readonly Move[],
  log: Amiss,
  planned: Amiss | null,
): GradedDeviation {
  const { tooth, step } = log;
  const title = step === null ? (log.move.activity ?? '') : titleOf(header, tooth, step);
  const asked =
    planned === null
      ? `not ${placeOf(header, moves, log)}`
      : `${title}, ${placeOf(header, moves, planned)}`;
  return {
    grade: 'out of order',
    tooth,
    step,
    entries: log.move.entry === null ? [] : [log.move.entry],
    asked,
    found: `${title}, ${placeOf(header, moves, log)}`,
    source: PRACTICE,
    ...NOTHING,
  };
}

/** An agent this unit's plan does not have, or not there: what is asked instead, and why never. */
function wrongAgent(header: Header, log: Amiss, rival: Amiss | null): GradedDeviation {
  const { tooth, step } = log;
  const unit = header.plan.units.find((each) => each.tooth === tooth);
  const never = unit?.never.find((each) => each.step === step) ?? null;
  const instead =
    rival === null || rival.step === null
      ? `no ${(step ?? '').replaceAll('-', ' ')} on ${unit?.materialName ?? 'this unit'}`
      : titleOf(header, tooth, rival.step);
  return {
    grade: 'wrong agent',
    tooth,
    step,
    entries: log.move.entry === null ? [] : [log.move.entry],
    asked: never === null ? instead : `${instead}: ${never.why}`,
    found: step === null ? '' : titleOf(header, tooth, step),
    source: never === null ? PRACTICE : 'the plan: never on this material',
    ...NOTHING,
  };
}

function amissOf(moves: readonly Move[], kind: Move['kind']): Amiss[] {
  return moves.flatMap((move, at) =>
    move.kind === kind && move.activity !== null ? [{ move, at, ...readLabel(move.activity) }] : [],
  );
}

/** Takes the nearest of `list` that fits out of it. */
function take(list: Amiss[], from: number, fits: (one: Amiss) => boolean): Amiss | null {
  const near = list
    .filter(fits)
    .toSorted((one, other) => Math.abs(one.at - from) - Math.abs(other.at - from))[0];
  if (near === undefined) return null;
  list.splice(list.indexOf(near), 1);
  return near;
}

/** Whether a unit's plan has the step at all. */
const has = ({ plan }: Header, { tooth, step }: Activity | Amiss): boolean =>
  step !== null && planStepOf(plan, tooth, step) !== null;

/** The agent that was used on the same surface where another was due: since it was soiled, until it was coated. */
function insteadOf(trace: Trace, moves: readonly Move[], missing: Amiss): Activity | null {
  const group = RIVALS.find((each) => missing.step !== null && each.includes(missing.step)) ?? [];
  const next = moves.slice(missing.at).find(({ entry }) => entry !== null)?.entry ?? Infinity;
  const mine = trace.activities.filter(({ tooth }) => tooth === missing.tooth);
  const breaks = ({ step, soiled }: Activity): boolean =>
    soiled !== null || step === 'try-in' || step === 'load';
  const at = mine.findIndex(({ entry }) => entry >= next);
  const here = at < 0 ? mine.length : at;
  const from = mine.slice(0, here).findLastIndex(breaks) + 1;
  const until = mine.findIndex((one, i) => i >= here && breaks(one));
  const round = mine.slice(from, until < 0 ? mine.length : until);
  return (
    round.find(({ step }) => step !== null && step !== missing.step && group.includes(step)) ?? null
  );
}

/**
 * What the alignment says: a model move is a step not done, a log move one in the wrong place; a log
 * move and a model move of one activity are one step out of order, and so is a step made up where
 * the record has it later; an agent in the place of another is the wrong one.
 */
export function fromMoves(
  header: Header,
  trace: Trace,
  { moves }: Alignment,
  moved: Moved,
): readonly GradedDeviation[] {
  const missing = amissOf(moves, 'model');
  const graded: GradedDeviation[] = [];
  for (const log of amissOf(moves, 'log')) {
    const same = take(missing, log.at, ({ move }) => move.activity === log.move.activity);
    const foreign = log.step !== null && AGENTS.includes(log.step) && !has(header, log);
    graded.push(foreign ? wrongAgent(header, log, null) : misplaced(header, moves, log, same));
  }
  const repeats = amissOf(moves, 'synchronous').filter(({ move }) => moved.again(move));
  for (const one of missing) {
    const late = take(
      repeats,
      one.at,
      ({ move, at }) => at > one.at && move.activity === one.move.activity,
    );
    if (late !== null) {
      graded.push(misplaced(header, moves, late, one));
      continue;
    }
    const planned = asPlanned(header, moved, one);
    graded.push(notDone(header, trace, moves, planned));
    const other = insteadOf(trace, moves, planned);
    if (other === null || graded.some(({ entries }) => entries.includes(other.entry))) continue;
    const { tooth, step, entry, label } = other;
    const move: Move = { kind: 'log', activity: label, entry, transition: null };
    graded.push(wrongAgent(header, { move, at: one.at, tooth, step }, planned));
  }
  return [...graded, ...skippedToo(header, trace, graded)];
}
