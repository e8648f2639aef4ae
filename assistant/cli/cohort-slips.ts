import type { StepId } from '../../machines/contract/index.ts';
import type { Chance } from './cohort-chance.ts';

/** What is done with a step instead of doing it as planned. */
export type Slip =
  | { readonly kind: 'skip' }
  /** Ended at this share of its least time. */
  | { readonly kind: 'short'; readonly share: number }
  /** Left on for this many times its most. */
  | { readonly kind: 'long'; readonly times: number }
  /** Begun this many seconds late. */
  | { readonly kind: 'wait'; readonly seconds: number }
  /** Tried after the cement's working time. */
  | { readonly kind: 'past-working' }
  /** Something lands on the conditioned tooth first, and nobody does it again. */
  | { readonly kind: 'soil-prep' }
  /** The crown is said to be clean. */
  | { readonly kind: 'counts-clean' }
  /** Another agent is used in its place. */
  | { readonly kind: 'instead'; readonly agent: StepId; readonly rinse: StepId }
  /** Saliva lands on the cleaned intaglio; it is cleaned again. */
  | { readonly kind: 'soil-intaglio' }
  /** Saliva was called by mistake, and is taken back. */
  | { readonly kind: 'withdraw' }
  /** "Done" is said too early, refused, and said again in time. */
  | { readonly kind: 'early' }
  /** Put off until the step named has been done. */
  | { readonly kind: 'after'; readonly step: StepId };

const skip = { kind: 'skip' } as const;

interface Habit {
  readonly step: StepId;
  /** How often, of the appointments that have the step. */
  readonly rate: number;
  readonly slip: Slip | ((chance: Chance) => Slip);
}

/** Invented: how often people leave out, shorten or mistime what. In the order of the appointment. */
const HABITS: readonly Habit[] = [
  { step: 'history', rate: 0.01, slip: skip },
  { step: 'equipment', rate: 0.09, slip: skip },
  { step: 'disinfect', rate: 0.06, slip: skip },
  { step: 'shade-photo', rate: 0.22, slip: skip },
  { step: 'shade-photo', rate: 0.07, slip: { kind: 'after', step: 'try-in' } },
  { step: 'airway', rate: 0.1, slip: skip },
  { step: 'prep-clean', rate: 0.05, slip: skip },
  { step: 'contacts', rate: 0.01, slip: skip },
  { step: 'margins', rate: 0.05, slip: skip },
  { step: 'approval', rate: 0.03, slip: skip },
  { step: 'intaglio-rinse', rate: 0.03, slip: { kind: 'counts-clean' } },
  { step: 'cleaner', rate: 0.05, slip: skip },
  { step: 'cleaner', rate: 0.05, slip: { kind: 'early' } },
  { step: 'abrade', rate: 0.06, slip: skip },
  {
    step: 'abrade',
    rate: 0.1,
    slip: { kind: 'instead', agent: 'cleaner', rinse: 'cleaner-rinse' },
  },
  { step: 'porcelain-etch', rate: 0.04, slip: skip },
  { step: 'porcelain-etch', rate: 0.05, slip: { kind: 'long', times: 1.6 } },
  {
    step: 'porcelain-etch',
    rate: 0.03,
    slip: { kind: 'instead', agent: 'acid-clean', rinse: 'acid-clean-rinse' },
  },
  { step: 'intaglio-dry', rate: 0.04, slip: { kind: 'withdraw' } },
  { step: 'silane', rate: 0.05, slip: skip },
  { step: 'silane', rate: 0.12, slip: { kind: 'early' } },
  { step: 'zirconia-primer', rate: 0.05, slip: skip },
  { step: 'isolate', rate: 0.1, slip: { kind: 'soil-intaglio' } },
  { step: 'pumice', rate: 0.012, slip: skip },
  { step: 'tooth-etch', rate: 0.05, slip: { kind: 'long', times: 1.8 } },
  { step: 'bond', rate: 0.04, slip: { kind: 'early' } },
  { step: 'mix', rate: 0.04, slip: { kind: 'soil-prep' } },
  {
    step: 'mix',
    rate: 0.04,
    slip: (chance) => ({ kind: 'wait', seconds: chance.whole(300, 900) }),
  },
  { step: 'seat', rate: 0.03, slip: { kind: 'past-working' } },
  { step: 'tack', rate: 0.05, slip: { kind: 'short', share: 0.5 } },
  { step: 'gel', rate: 0.12, slip: skip },
  { step: 'cure-buccal', rate: 0.06, slip: { kind: 'short', share: 0.35 } },
  { step: 'cure-lingual', rate: 0.04, slip: skip },
  { step: 'set', rate: 0.08, slip: { kind: 'early' } },
  { step: 'residual', rate: 0.02, slip: skip },
  { step: 'bite-after', rate: 0.04, slip: skip },
  { step: 'polish', rate: 0.08, slip: skip },
  { step: 'instructions', rate: 0.05, slip: skip },
  { step: 'lots', rate: 0.12, slip: skip },
];

/** What goes other than planned in one appointment: at most one slip a step. */
export function slipsFor(
  steps: readonly StepId[],
  careless: number,
  chance: Chance,
): ReadonlyMap<StepId, Slip> {
  const slips = new Map<StepId, Slip>();
  for (const { step, rate, slip } of HABITS) {
    // Drawn whether or not it applies, so that one habit more does not change the others.
    const drawn = chance.hits(Math.min(0.9, rate * careless));
    const made = typeof slip === 'function' ? slip(chance) : slip;
    if (drawn && steps.includes(step) && !slips.has(step)) slips.set(step, made);
  }
  return slips;
}
