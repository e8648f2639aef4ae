import type { Material } from '../../contract/index.ts';
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
   * the odds would be multiplied by, were the event known. How often each happens nobody knows, so no
   * expectation can be made of it.
   */
  readonly events: readonly {
    readonly id: DebondEventId;
    readonly name: string;
    readonly speaksFor: Cause;
    readonly ratio: Interval;
  }[];
}

/** Expected size of the log ratio of the answers under two causes, `share` the odds-share of the first. */
function expectedLogRatio(
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
): TellApart {
  const share = shares[0] / (shares[0] + shares[1]);
  const findings = open
    .map((question) => ({
      name: question.name,
      expectedLogRatio: expectedLogRatio(question, between, share),
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
      return [{ id, name: event.name, speaksFor, ratio }];
    })
    .toSorted((one, other) => other.ratio.likely - one.ratio.likely);
  return { between, findings, events };
}
