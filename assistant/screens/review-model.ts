/** What the review page shows. Plain data. */
import type { Counterfactual, ReviewedRecord } from '../../machines/review/index.ts';
import type { Pattern } from '../../machines/review/pattern/index.ts';
import type { Weighing } from '../../machines/review/weigh/index.ts';
import type { FieldProblem } from './problem.ts';
import type { SeatingBar } from './picture-seating.ts';

/** A record that was reviewed. */
export interface ReviewedView {
  readonly record: ReviewedRecord;
  /** A good signature is at its end; false for a case that goes on, or one kept here. */
  readonly sealed: boolean;
  /** Dwells of each unit, for its picture. */
  readonly seatings: readonly { readonly tooth: string; readonly bars: readonly SeatingBar[] }[];
  /** What today's machine would have refused. */
  readonly guard: Counterfactual;
}

/** A reviewed record as the list shows it. */
export interface ReviewRow {
  readonly name: string;
  readonly reference: string;
  readonly departures: number;
  /** Its file was cut off. */
  readonly cut: boolean;
  readonly invented: boolean;
}

/** A file that could not be reviewed. */
export interface UnreviewedFile {
  readonly name: string;
  readonly message: string;
}

/** Findings as they stand in the form. */
export interface FindingsDraft {
  readonly tooth: string;
  readonly cement: string;
  readonly coreInside: 'yes' | 'no' | 'not-seen';
  /** ISO 8601 date; empty when not known. */
  readonly lost: string;
  readonly form: string;
  /** Ids of events known otherwise than from the record. */
  readonly known: readonly string[];
}

export interface ReviewState {
  readonly rows: readonly ReviewRow[];
  /** The record shown in full; null when none is. */
  readonly view: ReviewedView | null;
  /** What the list is searched for. */
  readonly query: string;
  readonly failed: readonly UnreviewedFile[];
  /** Place in the list of the record shown; null when none is. */
  readonly chosen: number | null;
  /** Restorations whose follow-up is known. */
  readonly followed: number;
  readonly findings: FindingsDraft;
  readonly problems: readonly FieldProblem[];
  readonly weighing: Weighing | null;
  /** Null for fewer than two records. */
  readonly pattern: Pattern | null;
  /** Files are being read: so many of so many; null when none are. */
  readonly reading: { readonly done: number; readonly of: number } | null;
}

export const BLANK_FINDINGS: FindingsDraft = {
  tooth: '',
  cement: 'not-seen',
  coreInside: 'not-seen',
  lost: '',
  form: 'not-known',
  known: [],
};

export const NO_REVIEW: ReviewState = {
  rows: [],
  view: null,
  query: '',
  failed: [],
  chosen: null,
  followed: 0,
  findings: BLANK_FINDINGS,
  problems: [],
  weighing: null,
  pattern: null,
  reading: null,
};
