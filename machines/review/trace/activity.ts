import type {
  Contaminant,
  Dwell,
  Finding,
  Reason,
  RefusalId,
  Role,
  StepId,
  Surface,
  Way,
} from '../../contract/index.ts';

/** Something that happened, as the net knows it. */
export interface Activity {
  /** As the net's transition is called. */
  readonly label: string;
  readonly tooth: string | null;
  /** The step done; null for a contamination or a start over. */
  readonly step: StepId | null;
  readonly soiled: { readonly surface: Surface; readonly contaminant: Contaminant } | null;
  /** The entry with which it took effect. */
  readonly entry: number;
  /** The entry with which it began, where that is another one. */
  readonly begun: number | null;
  /** Case time, milliseconds: of its begin, and of its effect. */
  readonly from: number;
  readonly at: number;
  readonly wall: string;
  readonly who: Role;
  readonly via: Way;
  /** Seconds served against the plan's window; null where no dwell ran. */
  readonly servedS: number | null;
  readonly window: Dwell | null;
}

/** A dwell that was ended, with what it took. */
export interface Served {
  readonly tooth: string;
  readonly step: StepId;
  readonly servedS: number;
  readonly window: Dwell;
  readonly begun: number;
  readonly entry: number;
}

export interface Skipped {
  readonly tooth: string | null;
  readonly step: StepId;
  readonly entry: number;
  readonly reason: Reason | null;
}

/** A command that was refused and carried out all the same. */
export interface Forced {
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly refusals: readonly RefusalId[];
  readonly reason: Reason | null;
  /** Entries: refused, overridden, carried out. */
  readonly entries: readonly number[];
}

/** Said to be so, and not shown. */
export interface Claimed {
  readonly what: 'counted-clean' | 'withdrawn' | 'unmeasured';
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly entry: number;
  readonly reason: Reason | null;
}

export interface Hit {
  readonly refusal: RefusalId;
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly entry: number;
}

/** A record read as what happened. */
export interface Trace {
  readonly activities: readonly Activity[];
  readonly served: readonly Served[];
  readonly skipped: readonly Skipped[];
  readonly forced: readonly Forced[];
  readonly claimed: readonly Claimed[];
  readonly hits: readonly Hit[];
  readonly lots: readonly {
    readonly item: string;
    readonly lot: string;
    readonly entry: number;
    readonly tooth: string | null;
  }[];
  readonly findings: readonly {
    readonly finding: Finding;
    readonly entry: number;
    readonly tooth: string;
  }[];
  readonly closed: boolean;
}
