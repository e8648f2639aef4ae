import type {
  Contaminant,
  Finding,
  RefusalId,
  Shelf,
  StepId,
  UnitFacts,
  UnitPlan,
} from '../contract/index.ts';

/** Region states, as the guards see them. Kept equal to the chart by entry actions (a test holds it). */
export interface Regions {
  readonly where: 'bench' | 'mouth' | 'seated';
  readonly intaglio:
    | 'soiled'
    | 'underAgent'
    | 'rinsed'
    | 'clean'
    | 'conditioned'
    | 'coated'
    | 'primed'
    | 'loaded'
    | 'seated';
  readonly prep:
    | 'covered'
    | 'exposed'
    | 'clean'
    | 'underAcid'
    | 'etched'
    | 'coated'
    | 'ready'
    | 'seated';
  readonly field: 'open' | 'isolated' | 'dry';
  readonly cement: 'none' | 'mixed' | 'loaded' | 'seated' | 'tacked' | 'cleared' | 'set';
}

/** An agent lying on a surface: what it is, and whether its dwell was served in full. */
export interface Agent {
  readonly step: StepId;
  readonly served: boolean;
  /** A planned primer on one retainer, put on over the etch of another: the etch stands. */
  readonly overEtched?: true;
}

/** A dwell that runs. Times in milliseconds of case time. */
export interface RunningDwell {
  readonly step: StepId;
  readonly startedAt: number;
  /** What counts as served before it began: the cement has been setting since the mix. */
  readonly creditMs: number;
  /** Time held so far, not counting a hold that still lasts. */
  readonly heldMs: number;
  readonly heldAt: number | null;
  readonly addedS: number;
}

/** What a step left on a surface that goes stale (trade reference, 9B). */
export interface Made {
  readonly step: StepId;
  /** Case time in milliseconds at which the step ended. */
  readonly at: number;
  /** Steps that have used it since. */
  readonly used: readonly StepId[];
}

/** Where a step stands; steps not in the map are open. */
export type Progress = 'done' | 'skipped' | 'again';

/** All a unit's machine knows. Plain data: it is a fold over the record and nothing else. */
export interface UnitContext {
  readonly facts: UnitFacts;
  readonly shelf: Shelf;
  readonly plan: UnitPlan;
  readonly now: Regions;
  readonly contaminants: readonly Contaminant[];
  /** The intaglio's lasting micro-roughness; silicone voids it, a rinse does not. */
  readonly texture: 'none' | 'abraded' | 'etched';
  readonly intaglioAgent: Agent | null;
  readonly prepAgent: Agent | null;
  /** Peroxide has been on the tooth, and nobody has overridden that: no step of an appointment takes it out. */
  readonly peroxide: boolean;
  readonly tryIns: number;
  /** The case's own reason why the first try-in does not count still stands: nothing was reported since. */
  readonly excused: boolean;
  readonly dwells: readonly RunningDwell[];
  readonly mixedAt: number | null;
  /** What stands made and goes stale. */
  readonly made: readonly Made[];
  readonly steps: Readonly<Partial<Record<StepId, Progress>>>;
  /** Intaglio and prep steps still asked for; worked out again after every contamination. */
  readonly routes: { readonly intaglio: readonly StepId[]; readonly prep: readonly StepId[] };
  /** A step the person went back to; null when the pointer is where the work is. */
  readonly focus: StepId | null;
  readonly findings: readonly Finding[];
  /** Number of events this machine has accepted: how a caller tells acceptance from refusal. */
  readonly accepted: number;
}

interface Base {
  /** Case time in milliseconds. */
  readonly at: number;
  /** Refusals the clinician has overridden for this event. */
  readonly forced: readonly RefusalId[];
  /** The step the event is about; null when it is about none. */
  readonly step: StepId | null;
}

/** What can happen to a unit. */
export type UnitEvent = Base &
  (
    | { readonly type: `begin.${StepId}` }
    | { readonly type: `finish.${StepId}` }
    | { readonly type: `short.${StepId}` }
    | { readonly type: `skip.${StepId}` }
    | { readonly type: 'soil.intaglio'; readonly contaminant: Contaminant }
    | { readonly type: 'soil.prep'; readonly contaminant: Contaminant }
    | { readonly type: 'soil.field'; readonly contaminant: Contaminant }
    | { readonly type: 'find'; readonly finding: Finding }
    | { readonly type: 'counts-clean' }
    | { readonly type: 'start-over' }
    | { readonly type: 'back' }
    | { readonly type: 'forward' }
    | { readonly type: 'hold' }
    | { readonly type: 'release' }
    | { readonly type: 'add'; readonly seconds: number }
  );
export type UnitEventType = UnitEvent['type'];

/** Guards and actions read these. */
export interface Facts {
  readonly context: UnitContext;
  readonly event: UnitEvent;
}
