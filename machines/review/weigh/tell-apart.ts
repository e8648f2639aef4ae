import type { Material } from '../../contract/index.ts';
import { WEIGHING } from '../../trade/index.ts';
import type { Cause, DebondEventId } from '../../trade/index.ts';
import { allEvents, concerns } from './events.ts';
import type { SeenEvent } from './events.ts';
import type { Question } from './evidence.ts';
import type { Interval } from './interval.ts';

/** What would best tell the two leading causes apart. */
export interface TellApart {
  readonly between: readonly [Cause, Cause];
  /** Findings still open, the most telling first: how far each is expected to move the log odds, natural. */
  readonly findings: readonly { readonly name: string; readonly expectedLogRatio: number }[];
  /**
   * Events of the seating that speak for one of the two and not the other, the strongest first: what
   * the odds would be multiplied by, were the event known. What finding out is expected to move the
   * log odds by hangs on how often the event happens: `frequency` is that of the records reviewed
   * together, null without any, and then nothing is expected.
   */
  readonly events: readonly {
    readonly id: DebondEventId;
    readonly name: string;
    readonly speaksFor: Cause;
    readonly ratio: Interval;
    readonly frequency: Frequency | null;
    readonly expectedLogRatio: number | null;
  }[];
}

/** Restorations that had an event, of those that could have it. */
export interface Frequency {
  readonly seen: number;
  readonly of: number;
}
export type Frequencies = Partial<Readonly<Record<DebondEventId, Frequency>>>;

/** An event is never taken as sure under a cause. */
const ALMOST = 0.99;

/**
 * What finding out about an event is expected to move the log odds by: happening or not is a finding
 * with two answers, that happens `ratio` times as often under the cause it speaks for.
 */
function expectedOf({ seen, of }: Frequency, ratio: number, share: number): number | null {
  // Seen so seldom, it says little of how often it happens.
  if (seen < WEIGHING.small.value) return null;
  const other = Math.min(seen / of, ALMOST / ratio);
  const own = other * ratio;
  const happened = Math.log(ratio);
  const not = Math.log((1 - own) / (1 - other));
  return (
    share * (own * happened + (1 - own) * not) -
    (1 - share) * (other * happened + (1 - other) * not)
  );
}

/** Expected size of the log ratio of the answers under two causes, `share` the odds-share of the first. */
function expectedOfAnswers(
  { chances }: Question,
  [first, second]: readonly [Cause, Cause],
  share: number,
): number {
  const under = chances(second);
  return chances(first).reduce((sum, { chance: one }, i) => {
    const other = under[i]?.chance ?? 0;
    if (one <= 0 || other <= 0) return sum;
    const log = Math.log(one / other);
    return sum + share * one * log - (1 - share) * other * log;
  }, 0);
}

/** `shares` are those of the two causes, in their order. */
export function tellApart(
  between: readonly [Cause, Cause],
  shares: readonly [number, number],
  open: readonly Question[],
  seen: readonly SeenEvent[],
  material: Material | null,
  frequencies: Frequencies = {},
): TellApart {
  const share = shares[0] / (shares[0] + shares[1]);
  const findings = open
    .map((question) => ({
      name: question.name,
      expectedLogRatio: expectedOfAnswers(question, between, share),
    }))
    .toSorted((one, other) => other.expectedLogRatio - one.expectedLogRatio);
  const counted = (cause: Cause): number =>
    Math.max(
      1,
      ...seen.flatMap(({ event }) => (event.causes.includes(cause) ? [event.ratio.target] : [])),
    );
  const events = allEvents()
    .flatMap(([id, event]) => {
      const speaking = between.filter((cause) => event.causes.includes(cause));
      const [speaksFor] = speaking;
      if (speaking.length !== 1 || speaksFor === undefined || !concerns(event, material)) return [];
      // Only the strongest event of a cause counts: a weaker one would add nothing.
      const { min, target, max } = event.ratio;
      if (target <= counted(speaksFor)) return [];
      const ratio = { low: min ?? target, likely: target, high: max ?? target };
      const frequency = frequencies[id] ?? null;
      const own = speaksFor === between[0] ? share : 1 - share;
      const expectedLogRatio = frequency === null ? null : expectedOf(frequency, target, own);
      return [{ id, name: event.name, speaksFor, ratio, frequency, expectedLogRatio }];
    })
    .toSorted((one, other) => other.ratio.likely - one.ratio.likely);
  return { between, findings, events };
}
