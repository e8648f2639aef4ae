import { enabled, finalMarking, fire, initialMarking } from '../net/process-net.ts';
import type { ProcessNet } from '../net/process-net.ts';
import { factor } from './factor.ts';
import type { Factored, Once } from './factor.ts';
import { TooHard } from './found.ts';
import type { Alignment, Found } from './found.ts';
import type { TraceEnd } from './heuristic.ts';
import { schedulesOf } from './schedule.ts';
import type { Passed, Schedule } from './schedule.ts';
import { UnitTable } from './unit-table.ts';
import type { Times } from './unit-table.ts';

/** Past so many choices for the case as a whole it is given up: nobody says "lots" a thousand times. */
const MOST_CHOICES = 2000;
/** Most numbers kept to find the moves again: some 80 MB. */
const MOST_CELLS = 20_000_000;

const known = new WeakMap<ProcessNet, Factored | null>();

function factoredOf(net: ProcessNet): Factored | null {
  const before = known.get(net);
  if (before !== undefined) return before;
  const made = factor(net);
  known.set(net, made);
  return made;
}

/** No choice can be better for the units than this. */
const freest = ({ openers }: Factored): Times => ({
  opened: new Map(openers.map(({ component }) => [component, 0])),
  closing: null,
});

/** The moves that go through the parts of the case, by the events read before them. */
function casesMoves(
  passed: readonly Passed[],
  trace: readonly string[],
): ReadonlyMap<number, { readonly before: readonly Found[]; readonly event: Found | null }> {
  const moves = new Map<number, { before: Found[]; event: Found | null }>();
  const at = (i: number) => {
    const there = moves.get(i) ?? { before: [], event: null };
    moves.set(i, there);
    return there;
  };
  for (const { part, by, at: when } of passed) {
    if (by === 'itself') at(when).before.push({ event: null, transition: part.transition });
    for (const [i, label] of trace.entries()) {
      if (label === part.label) at(i).event = { event: i, transition: takenBy(part, by, when, i) };
    }
  }
  return moves;
}

/** What takes an event of a part's label; null: it stands alone. */
function takenBy(part: Once, by: Passed['by'], when: number, i: number) {
  if (by === 'event' && i === when) return part.transition;
  const through = by !== 'never' && i >= when;
  return through ? part.again : null;
}

/** All moves in an order the net allows. */
function together(
  { closers, owner }: Factored,
  { passed, times }: Schedule,
  tables: readonly UnitTable[],
  trace: readonly string[],
): readonly Found[] {
  const closing = new Set(closers.map(({ component }) => component));
  const opening = casesMoves(
    passed.filter(({ part }) => !closing.has(part.component)),
    trace,
  );
  const last = casesMoves(
    passed.filter(({ part }) => closing.has(part.component)),
    trace,
  );
  const units = tables.map((table) => table.moves(times));
  const moves: Found[] = [];
  for (let i = 0; i <= trace.length; i += 1) {
    moves.push(...(opening.get(i)?.before ?? []));
    const here = units.flatMap((unit) => unit.get(i) ?? []);
    moves.push(...here.filter(({ event }) => event === null));
    moves.push(...(last.get(i)?.before ?? []));
    if (i === trace.length) break;
    const own = here.find(({ event }) => event === i);
    const foreign = owner.has(trace[i] ?? '') ? null : { event: i, transition: null };
    const taken = own ?? opening.get(i)?.event ?? last.get(i)?.event ?? foreign;
    if (taken !== null) moves.push(taken);
  }
  return moves;
}

/** Goes the moves through on the net: that they are allowed, say the whole trace, and cost so much. */
function mustHold(
  net: ProcessNet,
  trace: readonly string[],
  found: Alignment,
  end: TraceEnd,
): void {
  let marking = initialMarking(net);
  let read = 0;
  let cost = 0;
  for (const { event, transition } of found.moves) {
    if (event !== null && event !== read) throw new Error('An event is left out of an alignment.');
    if (event !== null) read += 1;
    if (transition !== null) {
      if (!enabled(marking, transition)) throw new Error('A move of an alignment is not allowed.');
      marking = fire(marking, transition);
    }
    if (transition === null || (event === null && transition.label !== null)) cost += 1;
  }
  const there = end === 'anywhere' || marking.join() === finalMarking(net).join();
  if (read !== trace.length || cost !== found.cost || !there)
    throw new Error('An alignment is not what was counted.');
}

/**
 * The cheapest explanation of a trace by a net whose units meet only in parts of the case that are
 * gone through once ({@link factor}). For each choice of when those are, every unit is aligned by
 * itself: exactly, however far the trace is from the plan, with work that grows with the number of
 * units and not with all the ways they can stand together. Null where the net is not of that shape.
 * @throws TooHard when there are too many choices.
 */
export function alignByUnit(
  net: ProcessNet,
  trace: readonly string[],
  end: TraceEnd,
): Alignment | null {
  const factored = factoredOf(net);
  if (factored === null) return null;
  const tables = factored.units.map((unit, u) => {
    const events = trace.flatMap((label, at) =>
      factored.owner.get(label) === u ? [{ at, label }] : [],
    );
    return new UnitTable(unit, { events, length: trace.length }, end);
  });
  const parts = new Set([...factored.openers, ...factored.closers].map(({ label }) => label));
  const foreign = trace.filter((label) => !factored.owner.has(label) && !parts.has(label)).length;
  const free = freest(factored);
  const places = factored.units.reduce((sum, { size }) => sum + size, 0);
  if (trace.length * places > MOST_CELLS) throw new TooHard(foreign);
  const least = tables.reduce((sum, table) => sum + table.cost(free), foreign);
  let best: { readonly schedule: Schedule; readonly cost: number } | null = null;
  let looked = 0;
  for (const schedule of schedulesOf(factored, trace, end)) {
    if (best !== null && schedule.cost + least >= best.cost) break;
    looked += 1;
    if (looked > MOST_CHOICES) throw new TooHard(schedule.cost + least);
    const cost = tables.reduce(
      (sum, table) => sum + table.cost(schedule.times),
      schedule.cost + foreign,
    );
    if (cost < (best?.cost ?? Number.POSITIVE_INFINITY)) best = { schedule, cost };
  }
  if (best === null) throw new TooHard(Number.POSITIVE_INFINITY);
  const moves = together(factored, best.schedule, tables, trace);
  const found = { cost: best.cost, moves, expanded: looked };
  mustHold(net, trace, found, end);
  return found;
}
