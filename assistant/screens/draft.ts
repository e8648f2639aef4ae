/**
 * The desk form as typed: numbers stay text until the case is checked, so a half-typed value is
 * never lost and its problem can stand beside it. Times are seconds.
 */
import type { CaseFile } from '../../machines/contract/index.ts';
import { type ShelfDraft, emptyShelf, shelfCandidate, shelfDraft } from './draft-shelf.ts';
import { emptyUnit, type UnitDraft, unitCandidate, unitDraft } from './draft-unit.ts';
import { numberOf, optional, textOf } from './draft-values.ts';

export type { ShelfDraft } from './draft-shelf.ts';

export interface CaseDraft {
  readonly reference: string;
  readonly invented: boolean;
  readonly team: string;
  readonly roomC: string;
  /** Day of the appointment, ISO 8601; empty for the day the case is opened. */
  readonly on: string;
  /** What the assistant does here; null for the usual. */
  readonly assistantMay: readonly string[] | null;
  readonly units: readonly UnitDraft[];
  readonly shelf: ShelfDraft;
}

/** A blank case on the given shelf, with one unit. */
export function emptyDraft(shelf: ShelfDraft = emptyShelf()): CaseDraft {
  return {
    reference: '',
    invented: false,
    team: 'assisted',
    roomC: '23',
    on: '',
    assistantMay: null,
    units: [emptyUnit(shelf.cements[0]?.label ?? '')],
    shelf,
  };
}

/** The form as it stands for a case already known. */
export function draftOf(file: CaseFile): CaseDraft {
  return {
    reference: file.reference,
    invented: file.invented,
    team: file.team,
    roomC: textOf(file.roomC),
    on: file.on ?? '',
    assistantMay: file.assistantMay ?? null,
    units: file.units.map(unitDraft),
    shelf: shelfDraft(file.shelf),
  };
}

/**
 * What the form says, in the shape of a case file but unchecked: blanks are left out and text that
 * is no number stays text, so that `checkCase` can name the field. Inverse of {@link draftOf} on
 * valid cases. `today`, ISO 8601, is the day of an appointment that names none.
 */
export function candidateOf(draft: CaseDraft, today = ''): unknown {
  return {
    format: 'seatcall-case/1',
    ...optional('reference', draft.reference),
    invented: draft.invented,
    team: draft.team,
    roomC: numberOf(draft.roomC),
    ...optional('on', draft.on === '' ? today : draft.on),
    ...(draft.assistantMay === null ? {} : { assistantMay: draft.assistantMay }),
    units: draft.units.map(unitCandidate),
    shelf: shelfCandidate(draft.shelf),
  };
}
