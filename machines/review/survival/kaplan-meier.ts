import { normalDeviate } from './gamma.ts';
import type { Tally } from './tally.ts';

/** One time of the product-limit estimate. */
export interface Point {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly censored: number;
  readonly survival: number;
  /** Greenwood's standard error of `survival`; null once nobody survives. */
  readonly se: number | null;
  /** Log-log interval; null while everybody and once nobody survives. */
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface Quartile {
  /** Null: the curve does not come down that far. */
  readonly time: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface Curve {
  readonly subjects: number;
  readonly events: number;
  readonly points: readonly Point[];
  readonly median: Quartile;
}

/** Rounding in a product of many factors must not move the time at which a curve reaches one half. */
const CLOSE = 1e-9;

/** Where a curve that only falls reaches one half; the middle of its rest when it rests there. */
function halfTime(points: readonly Point[], of: (point: Point) => number | null): number | null {
  const at = points.findIndex((point) => {
    const value = of(point);
    return value !== null && value <= 0.5 + CLOSE;
  });
  const found = points[at];
  if (found === undefined) return null;
  if ((of(found) ?? 0) < 0.5 - CLOSE) return found.time;
  const leaves = points.slice(at + 1).find((point) => (of(point) ?? 0) < 0.5 - CLOSE);
  return (found.time + (leaves ?? points.at(-1) ?? found).time) / 2;
}

/**
 * Kaplan and Meier's product-limit estimate with Greenwood's standard error and log-log intervals
 * at `level`. Subjects censored at the time of an event were at risk of it.
 * Source: Kaplan EL, Meier P. J Am Stat Assoc 1958;53:457-481; the log-log interval: Kalbfleisch
 * and Prentice, The Statistical Analysis of Failure Time Data, 1980 (both from memory).
 */
export function kaplanMeier(tally: Tally, level = 0.95): Curve {
  const z = normalDeviate(level);
  let atRisk = tally.subjects;
  let survival = 1;
  let greenwood = 0;
  const points: Point[] = [];
  for (const { time, events, censored } of tally.counts()) {
    survival *= 1 - events / atRisk;
    if (events > 0) greenwood += events / (atRisk * (atRisk - events));
    points.push({
      time,
      atRisk,
      events,
      censored,
      survival,
      se: survival > 0 ? survival * Math.sqrt(greenwood) : null,
      ...logLog(survival, greenwood, z),
    });
    atRisk -= events + censored;
  }
  const { subjects, events } = tally;
  const median = {
    time: halfTime(points, (point) => point.survival),
    lower: halfTime(points, ({ lower }) => lower),
    upper: halfTime(points, ({ upper }) => upper),
  };
  return { subjects, events, points, median };
}

function logLog(survival: number, greenwood: number, z: number): Pick<Point, 'lower' | 'upper'> {
  if (survival <= 0 || survival >= 1) return { lower: null, upper: null };
  const log = Math.log(survival);
  const reach = (z * Math.sqrt(greenwood)) / log;
  const power = Math.log(-log);
  return {
    lower: Math.exp(-Math.exp(power - reach)),
    upper: Math.exp(-Math.exp(power + reach)),
  };
}

/** The curve's last point at or before `time`; null before the first. */
export function pointAt({ points }: Pick<Curve, 'points'>, time: number): Point | null {
  return points.findLast((point) => point.time <= time) ?? null;
}

/** Subjects still followed, and without event, just before `time`. */
export function atRiskAt({ points }: Pick<Curve, 'points'>, time: number): number {
  return points.find((point) => point.time >= time)?.atRisk ?? 0;
}
