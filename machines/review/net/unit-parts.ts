import type { Shelf, StepId, UnitFacts, UnitPlan } from '../../contract/index.ts';
import type { Cleanings, Condition, Primes } from './condition.ts';
import type { NetBuilder, Part, Step } from './process-net.ts';

/** What the builders of one unit's net share. */
export interface UnitParts {
  readonly builder: NetBuilder;
  readonly tooth: string;
  readonly facts: UnitFacts;
  readonly shelf: Shelf;
  readonly plan: UnitPlan;
  readonly team: 'assisted' | 'solo';
  /** Planned steps of the unit, in order. */
  readonly steps: readonly StepId[];
  readonly label: (step: StepId) => string;
  readonly part: {
    readonly where: Part;
    readonly checks: Part;
    readonly intaglio: Part;
    readonly prep: Part;
    readonly cement: Part;
    /** A try-in has wetted the prep, and the prep's own token has not been led back yet. */
    readonly wetting: Part;
    /** What must have happened before the first try-in: read, not moved. */
    readonly arrived: readonly Step[];
    /** What must have happened before anything is done in the mouth. */
    readonly opened: readonly Step[];
  };
  readonly cleanings: Cleanings;
  /** Depths of contamination this plan tells apart. */
  readonly depths: readonly boolean[];
  /** What is on the intaglio as it arrives. */
  readonly start: Condition;
  readonly textured: boolean;
  readonly excused: boolean;
  readonly shadePaste: boolean;
  /** Whether the plan has a try-in at all: what is bonded outside the mouth has none before it. */
  readonly triedIn: boolean;
  /** Looks taken with the crown on the tooth, in order. */
  readonly checks: readonly StepId[];
  readonly primes: Primes;
}
