import type { GoodFor, StepId } from '../contract/index.ts';
import type { Freshness } from '../trade/index.ts';
import { cite } from './cite.ts';
import type { UnitContext } from './context.ts';

/**
 * How long what a step leaves stays good; null where it does not go stale, or nothing in this
 * plan uses it. A dried intaglio goes stale only where it was etched.
 */
export const freshFor = (
  step: StepId,
  { material, trade }: UnitContext,
  all: readonly StepId[],
): GoodFor | null => {
  const table: Partial<Readonly<Record<StepId, Freshness>>> = trade.freshness;
  const fresh = table[step];
  if (fresh === undefined) return null;
  if (step === 'intaglio-dry' && material.texture !== 'etched') return null;
  const before = fresh.before.filter((id) => all.includes(id));
  if (before.length === 0) return null;
  const { within, lapsed } = fresh;
  return {
    seconds: within.value,
    before,
    lapsed: lapsed(
      within.value % 60 === 0 && within.value > 60
        ? `${within.value / 60} minutes`
        : `${within.value} seconds`,
    ),
    mark: within.mark,
    source: `${within.note} (${cite(within)})`,
  };
};
