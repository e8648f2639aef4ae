import { type UnitContext, windowOf } from '../seating/index.ts';

/** A seated restoration is not to be moved until its cement has gelled or set. */
interface Hold {
  readonly until: 'gel' | 'set';
  /** Case time at which it may be let go, ms. */
  readonly at: number;
}

/**
 * The second clock of a cement: from the mix, run on at the mouth's temperature since it was seated, as
 * the plan works it out. Null before the seat, when light does it, or when the wait itself was begun:
 * that dwell has its own calls.
 */
export function holdsUntil(context: UnitContext): Hold | null {
  const { cement } = context.now;
  const { mixedAt } = context;
  if (mixedAt === null) return null;
  const waits = (['gel-wait', 'set'] as const).filter((step) =>
    context.plan.steps.some(({ id }) => id === step),
  );
  const step = waits.find(
    (id) => context.steps[id] !== 'done' && (id === 'set' || cement === 'seated'),
  );
  const loose = cement === 'seated' || cement === 'tacked' || cement === 'cleared';
  if (!loose || step === undefined) return null;
  if (context.dwells.some((dwell) => dwell.step === step)) return null;
  const window = windowOf(context, step);
  if (window === null) return null;
  return { until: step === 'set' ? 'set' : 'gel', at: mixedAt + window.targetS * 1000 };
}
