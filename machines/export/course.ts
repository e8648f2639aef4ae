import type { Deviation, Dwell, Entry, Header, StepId } from '../contract/index.ts';
import { advance, type CaseState, initialState, unitOf } from '../conduct/index.ts';
import { planStep, servedMs, type UnitContext, windowOf } from '../seating/index.ts';

/** A step done once: begun, ended, left out, or taken back. */
export interface Performance {
  readonly tooth: string;
  readonly step: StepId;
  readonly title: string;
  /** Steps of the case are done once for all units. */
  readonly scope: 'case' | 'unit';
  /** `stopped`: begun and not ended, since something else came of it or the case was closed. */
  status: 'in-progress' | 'completed' | 'stopped' | 'not-done' | 'entered-in-error';
  /** Wall time, ISO 8601 in UTC; null when nobody said that it begins. */
  readonly start: string | null;
  end: string | null;
  /** Seconds of effective time, for a dwell that ended; null otherwise. */
  servedS: number | null;
  window: Dwell | null;
  /** Numbers of the entries that it shows in, in order. */
  readonly entries: number[];
  readonly deviations: Deviation[];
}

/** What a record says was done. */
export interface Course {
  /** In the order in which they were begun. */
  readonly performances: readonly Performance[];
  /** The first entry that today's rules answer otherwise than the record does; null when none. What comes after it is not part of the course. */
  readonly differsAt: number | null;
}

type Units = ReadonlyMap<string, UnitContext>;

const unitsOf = (state: CaseState): Units =>
  new Map(Object.keys(state.units).map((tooth) => [tooth, unitOf(state, tooth)]));

/** How one step stood before an entry and after it. */
interface Change {
  readonly ran: UnitContext['dwells'][number] | undefined;
  readonly runs: boolean;
  readonly was: string | undefined;
  readonly is: string | undefined;
}

interface Pair {
  readonly unit: UnitContext;
  readonly old: UnitContext;
}

class Follower {
  readonly performances: Performance[] = [];

  #last(tooth: string, step: StepId): Performance | undefined {
    return this.performances.findLast(
      (one) => one.tooth === tooth && one.step === step && one.status !== 'entered-in-error',
    );
  }

  #open(unit: UnitContext, step: StepId, entry: Entry, begun: boolean): Performance {
    const planned = planStep(unit, step);
    const made: Performance = {
      tooth: unit.facts.tooth,
      step,
      title: planned?.title ?? step,
      scope: planned?.scope ?? 'unit',
      status: 'in-progress',
      start: begun ? entry.stamp.wall : null,
      end: null,
      servedS: null,
      window: planned?.dwell ?? null,
      entries: [entry.n],
      deviations: [],
    };
    this.performances.push(made);
    return made;
  }

  #takenBack(last: Performance | undefined, { runs, was, is }: Change): void {
    if (last === undefined) return;
    if (runs) {
      last.status = 'in-progress';
      last.end = null;
      last.servedS = null;
    } else if (was !== is || last.status === 'in-progress') last.status = 'entered-in-error';
  }

  /** One step of one unit, over one entry. */
  #step({ unit, old }: Pair, step: StepId, change: Change, entry: Entry, undone: boolean): void {
    const { ran, runs, was, is } = change;
    const last = this.#last(unit.facts.tooth, step);
    if (undone) {
      this.#takenBack(last, change);
      return;
    }
    const going = last?.status === 'in-progress' ? last : undefined;
    const end = (status: Performance['status'], begun: boolean): void => {
      const one = going ?? this.#open(unit, step, entry, begun);
      one.status = status;
      one.end = entry.stamp.wall;
      // Seconds that were added aloud are known only while the dwell runs.
      one.window = windowOf(old, step);
      one.servedS = ran === undefined ? null : servedMs(ran, entry.stamp.at) / 1000;
      if (one.entries.at(-1) !== entry.n) one.entries.push(entry.n);
    };
    if (runs && ran === undefined) this.#open(unit, step, entry, true);
    else if (is === 'done' && (was !== 'done' || going !== undefined) && !runs)
      end('completed', false);
    else if (is === 'skipped' && was !== 'skipped') end('not-done', false);
    else if (ran !== undefined && !runs) end('stopped', true);
  }

  /** All that an entry changed. */
  follow(before: Units, after: Units, entry: Entry, undone: boolean): void {
    for (const [tooth, unit] of after) {
      const old = before.get(tooth);
      if (old === undefined || old === unit) continue;
      const steps = new Set<StepId>();
      for (const { step } of [...old.dwells, ...unit.dwells]) steps.add(step);
      for (const { id } of [...unit.plan.steps, ...unit.plan.spare])
        if (old.steps[id] !== unit.steps[id]) steps.add(id);
      for (const step of steps) {
        const ran = old.dwells.find((dwell) => dwell.step === step);
        const runs = unit.dwells.some((dwell) => dwell.step === step);
        const change = { ran, runs, was: old.steps[step], is: unit.steps[step] };
        if (change.was === change.is && (ran !== undefined) === runs) continue;
        this.#step({ unit, old }, step, change, entry, undone);
      }
    }
  }

  /** Keeps a departure with the performance it is about. */
  depart(entry: Entry, deviation: Deviation): void {
    const { tooth, n } = entry;
    const last =
      tooth === null || deviation.step === null ? undefined : this.#last(tooth, deviation.step);
    if (last === undefined) return;
    last.deviations.push(deviation);
    if (!last.entries.includes(n)) last.entries.push(n);
  }

  /** What was begun and not ended in a case that is over. */
  finish(): void {
    for (const one of this.performances) if (one.status === 'in-progress') one.status = 'stopped';
  }
}

/** Tells what was taken back from what went on: an undo may be asked about before it is done. */
class Undoing {
  #pending = false;

  /** Whether this entry took something back. */
  is({ command, outcome }: Entry): boolean {
    const answers = command.type === 'confirm' || command.type === 'reason';
    const undoes = command.type === 'undo' || (answers && this.#pending);
    if (command.type === 'undo') this.#pending = outcome.kind === 'asked';
    else if (outcome.kind !== 'asked') this.#pending = false;
    return undoes && outcome.kind === 'accepted';
  }
}

/**
 * Follows a record's commands through the machines and tells every step that was done in it, from
 * when to when; also those that were done again, left out or taken back.
 */
export function courseOf(header: Header, entries: readonly Entry[], closed: boolean): Course {
  const follower = new Follower();
  const undoing = new Undoing();
  let state = initialState(header.case, header.plan);
  let before = unitsOf(state);
  for (const entry of entries) {
    const result = advance(state, entry.command, entry.stamp);
    if (result.outcome.kind !== entry.outcome.kind)
      return { performances: follower.performances, differsAt: entry.n };
    const after = unitsOf(result.state);
    follower.follow(before, after, entry, undoing.is(entry));
    if (entry.outcome.kind === 'accepted' && entry.outcome.deviation !== null)
      follower.depart(entry, entry.outcome.deviation);
    state = result.state;
    before = after;
  }
  if (closed) follower.finish();
  return { performances: follower.performances, differsAt: null };
}
