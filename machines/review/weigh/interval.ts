/** A number with the range it is given in; the three are equal where there is none. */
export interface Interval {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const exactly = (value: number): Interval => ({ low: value, likely: value, high: value });

export const product = (factors: readonly Interval[]): Interval =>
  factors.reduce(
    (so, one) => ({
      low: so.low * one.low,
      likely: so.likely * one.likely,
      high: so.high * one.high,
    }),
    exactly(1),
  );

/** Two digits that mean something; a share is never shown as certain. */
export function digits(value: number): string {
  if (value === 0 || value >= 1) return Number(value.toPrecision(3)).toString();
  if (value > 0.995) return 'over 0.99';
  return value < 0.001 ? 'under 0.001' : Number(value.toPrecision(2)).toString();
}

export const hasRange = ({ low, high }: Interval): boolean => high > low;

export const shownInterval = (interval: Interval): string =>
  hasRange(interval)
    ? `${digits(interval.likely)} (${digits(interval.low)} to ${digits(interval.high)})`
    : digits(interval.likely);

/**
 * Each weight's share of them all. A share is least when its own weight is least and every other's
 * most, and the other way round, so its range is exact.
 */
export function shares(weights: readonly Interval[]): Interval[] {
  const sum = (pick: (weight: Interval) => number): number =>
    weights.reduce((so, weight) => so + pick(weight), 0);
  const low = sum((weight) => weight.low);
  const likely = sum((weight) => weight.likely);
  const high = sum((weight) => weight.high);
  return weights.map((weight) => ({
    low: weight.low / (weight.low + high - weight.high),
    likely: weight.likely / likely,
    high: weight.high / (weight.high + low - weight.low),
  }));
}
