import type { StepId } from '../../contract/index.ts';
import type { ServedDwell } from '../deviation.ts';

/** How long a dwell really took, over many. Seconds. */
export interface DwellTimes {
  readonly step: StepId;
  readonly served: number;
  /** Below the least, above the most of its own plan. */
  readonly short: number;
  readonly long: number;
  /** 5, 25, 50, 75 and 95 of a hundred took this long or less; to the second up to two minutes, then to 5 and 30. */
  readonly quantiles: readonly [number, number, number, number, number];
  /** Least and most of the plans, the widest of them; null where longer does no harm. */
  readonly minS: number;
  readonly maxS: number | null;
}

/** Coarser as times grow, so that a histogram stays small whatever comes. */
function bin(seconds: number): number {
  const width = seconds < 120 ? 1 : seconds < 600 ? 5 : 30;
  return Math.round(seconds / width) * width;
}

/** Times served of one step. */
export class Served {
  readonly #bins = new Map<number, number>();
  #served = 0;
  #short = 0;
  #long = 0;
  #minS = Infinity;
  #maxS: number | null = 0;

  add({ servedS, minS, maxS }: ServedDwell): void {
    const at = bin(servedS);
    this.#bins.set(at, (this.#bins.get(at) ?? 0) + 1);
    this.#served += 1;
    if (servedS < minS) this.#short += 1;
    if (maxS !== null && servedS > maxS) this.#long += 1;
    this.#minS = Math.min(this.#minS, minS);
    this.#maxS = maxS === null || this.#maxS === null ? null : Math.max(this.#maxS, maxS);
  }

  #quantile(share: number): number {
    const order = [...this.#bins].toSorted(([one], [other]) => one - other);
    let seen = 0;
    for (const [seconds, many] of order) {
      seen += many;
      if (seen >= share * this.#served) return seconds;
    }
    return 0;
  }

  result(step: StepId): DwellTimes {
    const q = (share: number): number => this.#quantile(share);
    return {
      step,
      served: this.#served,
      short: this.#short,
      long: this.#long,
      quantiles: [q(0.05), q(0.25), q(0.5), q(0.75), q(0.95)],
      minS: this.#minS,
      maxS: this.#maxS,
    };
  }
}
