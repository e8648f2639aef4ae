import type {
  CementClass,
  Finding,
  Material,
  RefusalId,
  Role,
  StepId,
  Substrate,
  UnitKind,
} from '../contract/index.ts';

/** How a departure from the plan is graded. */
export const GRADES = [
  'not done',
  'short',
  'long',
  'late',
  'out of order',
  'wrong agent',
  'refused and forced',
  'unverified',
] as const;
export type Grade = (typeof GRADES)[number];

/** Seconds measured against the window the plan gave. */
export interface Measured {
  readonly seconds: number;
  readonly minS: number | null;
  readonly targetS: number | null;
  readonly maxS: number | null;
}

/** One departure of a record from its plan. */
export interface GradedDeviation {
  readonly grade: Grade;
  /** The unit it concerns; null for the case as a whole. */
  readonly tooth: string | null;
  readonly step: StepId | null;
  /** Numbers of the entries that show it, in order; empty when only something missing shows it. */
  readonly entries: readonly number[];
  /** What the plan asked, in words, with the window where there is one. */
  readonly asked: string;
  /** What the record shows, in words. */
  readonly found: string;
  /** Where the demand comes from: a paper, common practice, the practice's own shelf, a law of the house. */
  readonly source: string;
  /** What had been refused, for what was forced; null otherwise. */
  readonly refusal: RefusalId | null;
  /** For short, long and late; null otherwise. */
  readonly measured: Measured | null;
  /** For late: the step after which too much time went by. */
  readonly since?: StepId;
  /** Entry with which the step was served in full later on: the surface did not stay as it was. */
  readonly redone?: number;
}

/**
 * One move of an alignment. A log move is an event the plan has no place for, a model move a step
 * the record does not have; a silent move is routing in the net and costs nothing.
 */
export interface Move {
  readonly kind: 'synchronous' | 'log' | 'model' | 'silent';
  /** Label of the activity, such as `46 cleaner`; null for a silent move. */
  readonly activity: string | null;
  /** Entry of the record; null for a move of the net alone. */
  readonly entry: number | null;
  /** Transition of the net; null for a move of the log alone. */
  readonly transition: string | null;
}

/** The cheapest explanation of a record by its plan's net. */
export interface Alignment {
  /** One for each log move and each visible model move. */
  readonly cost: number;
  /** 1 - cost / (length of the trace + length of the shortest way through the net). */
  readonly fitness: number;
  readonly moves: readonly Move[];
}

/** A dwell as it was really served. Seconds of effective (not held) time. */
export interface ServedDwell {
  readonly step: StepId;
  readonly servedS: number;
  readonly minS: number;
  readonly targetS: number;
  readonly maxS: number | null;
  /** Entries that began and ended it. */
  readonly entries: readonly number[];
}

/** A guard that was hit: a command was refused. */
export interface GuardHit {
  readonly refusal: RefusalId;
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly entry: number;
  /** Whether it was overridden afterwards. */
  readonly forced: boolean;
}

/** One restoration of a reviewed record. */
export interface ReviewedUnit {
  readonly tooth: string;
  readonly material: Material;
  readonly kind: UnitKind;
  readonly substrate: Substrate;
  readonly cement: { readonly label: string; readonly class: CementClass };
  /** Roles that gave the commands for this unit, in the order of the vocabulary. */
  readonly roles: readonly Role[];
  /** Whether the prep's form holds the restoration by itself, as the plan worked out. */
  readonly formHolds: boolean;
  /** Wall time at which it was seated, ISO 8601; null when it never was. */
  readonly seated: string | null;
  readonly dwells: readonly ServedDwell[];
  /** What was found on the way, with the entries that say so. */
  readonly findings?: readonly { readonly finding: Finding; readonly entry: number }[];
  readonly deviations: readonly GradedDeviation[];
}

/** A record that was verified, replayed, aligned with its plan and graded. */
export interface ReviewedRecord {
  /** What the record was called when it was given: a file's path. */
  readonly record: string;
  readonly reference: string;
  readonly invented: boolean;
  /** Wall time the case was opened, ISO 8601 in UTC. */
  readonly opened: string;
  readonly closed: boolean;
  readonly entries: number;
  /** The file was cut off after this entry, and what came then is not known; absent for a whole one. */
  readonly cutAfter?: number;
  readonly units: readonly ReviewedUnit[];
  /** Lots noted in the record and on the shelf in its header. */
  readonly lots: readonly { readonly item: string; readonly lot: string }[];
  readonly guards: readonly GuardHit[];
  readonly alignment: Alignment;
  /** Every deviation, those of the case and those of its units, in the order of the record. */
  readonly deviations: readonly GradedDeviation[];
}
