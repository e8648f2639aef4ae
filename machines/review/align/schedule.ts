import type { Factored, Once } from './factor.ts';
import type { TraceEnd } from './heuristic.ts';
import type { Times } from './unit-table.ts';

/** When a part of the case is gone through: by an event, without one before an event or at the end, or never. */
export interface Passed {
  readonly part: Once;
  readonly by: 'event' | 'itself' | 'never';
  /** Number of that event; or so many events are read before. */
  readonly at: number;
}

/** A choice for every part of the case, and what it costs by itself. */
export interface Schedule {
  readonly passed: readonly Passed[];
  readonly times: Times;
  readonly cost: number;
}

const NEVER = Number.POSITIVE_INFINITY;

interface Draft {
  readonly passed: readonly Passed[];
  readonly cost: number;
}

/** How many events have been read once a part is gone through. */
const readBy = ({ by, at }: Passed): number =>
  by === 'never' ? NEVER : by === 'event' ? at + 1 : at;

const timeOf = (passed: readonly Passed[], component: number): number => {
  const found = passed.find(({ part }) => part.component === component);
  return found === undefined ? NEVER : readBy(found);
};

/** Events of a part's label that nothing takes: those before it is gone through, or all others. */
const untaken = (part: Once, events: readonly number[], from: number): number =>
  part.again === null ? events.length : events.filter((at) => at < from).length;

/** What can be done with an opener: earlier is never worse for what waits for it. */
function openings(part: Once, events: readonly number[], from: number, end: TraceEnd): Draft[] {
  const never = { passed: [{ part, by: 'never', at: 0 } as const], cost: events.length };
  if (from === NEVER) return end === 'anywhere' ? [never] : [];
  const alone = {
    passed: [{ part, by: 'itself', at: from } as const],
    cost: 1 + untaken(part, events, from),
  };
  const first = events.find((at) => at >= from);
  const taken =
    first === undefined
      ? []
      : [
          {
            passed: [{ part, by: 'event', at: first } as const],
            cost: untaken(part, events, first) - (part.again === null ? 1 : 0),
          },
        ];
  return [alone, ...taken, ...(end === 'anywhere' ? [never] : [])];
}

/** What can be done with a closer: by any of its events, or without one at the end, when all is done. */
function closings(part: Once, events: readonly number[], length: number, end: TraceEnd): Draft[] {
  const alone =
    end === 'anywhere'
      ? { passed: [{ part, by: 'never', at: 0 } as const], cost: events.length }
      : {
          passed: [{ part, by: 'itself', at: length } as const],
          cost: 1 + events.length,
        };
  const taken = events.map((at) => ({
    passed: [{ part, by: 'event', at } as const],
    cost: untaken(part, events, at) - (part.again === null ? 1 : 0),
  }));
  return [alone, ...taken];
}

/** Of drafts that are the same to the units the cheapest. */
function cheapest(drafts: readonly Draft[], keyOf: (draft: Draft) => string): Draft[] {
  const best = new Map<string, Draft>();
  for (const draft of drafts) {
    const key = keyOf(draft);
    if ((best.get(key)?.cost ?? NEVER) > draft.cost) best.set(key, draft);
  }
  return [...best.values()];
}

/** Before which event everything has to be done; null: only at the end. */
const closingOf = ({ passed }: Draft): number | null => {
  const events = passed.flatMap(({ by, at }) => (by === 'event' ? [at] : []));
  return events.length === 0 ? null : Math.min(...events);
};

/** Every choice that could be part of a cheapest alignment, the cheapest by itself first. */
export function schedulesOf(
  { openers, closers, units }: Factored,
  trace: readonly string[],
  end: TraceEnd,
): readonly Schedule[] {
  const eventsOf = (part: Once): readonly number[] =>
    trace.flatMap((label, at) => (label === part.label ? [at] : []));
  const joined = (draft: Draft, more: Draft): Draft => ({
    passed: [...draft.passed, ...more.passed],
    cost: draft.cost + more.cost,
  });
  let open: Draft[] = [{ passed: [], cost: 0 }];
  for (const part of openers) {
    const events = eventsOf(part);
    open = open.flatMap((draft) => {
      const from = Math.max(0, ...part.needs.map((need) => timeOf(draft.passed, need)));
      return openings(part, events, from, end).map((more) => joined(draft, more));
    });
  }
  // Units see no more of the openers than when all that a move waits for is there.
  const waits = new Map(
    units.flatMap(({ moves }) => moves.map(({ needs }) => [needs.join(), needs] as const)),
  );
  const seen = ({ passed }: Draft): string =>
    [...waits.values()]
      .map((needs) => Math.max(0, ...needs.map((need) => timeOf(passed, need))))
      .join();
  open = cheapest(open, seen);
  let shut: Draft[] = [{ passed: [], cost: 0 }];
  for (const part of closers) {
    const ways = closings(part, eventsOf(part), trace.length, end);
    shut = cheapest(
      shut.flatMap((draft) => ways.map((more) => joined(draft, more))),
      (draft) => String(closingOf(draft)),
    );
  }
  return open
    .flatMap((opening) =>
      shut.map((closing): Schedule => {
        const both = joined(opening, closing);
        const opened = new Map(
          openers.map(({ component }) => [component, timeOf(both.passed, component)]),
        );
        return { ...both, times: { opened, closing: closingOf(closing) } };
      }),
    )
    .toSorted((one, other) => one.cost - other.cost);
}
