/**
 * The desk form as typed: numbers stay text until the case is checked, so a half-typed value is
 * never lost and its problem can stand beside it. Times are seconds.
 */
import type { CaseFile, UnitFacts } from '../../machines/contract/index.ts';
import { type ShelfDraft, emptyShelf, shelfCandidate, shelfDraft } from './draft-shelf.ts';
import { numberOf, optional, textOf } from './draft-values.ts';

export type { ShelfDraft } from './draft-shelf.ts';

export interface UnitDraft {
  readonly tooth: string;
  readonly kind: string;
  readonly material: string;
  readonly translucency: string;
  readonly thicknessMm: string;
  readonly substrate: string;
  readonly heightMm: string;
  readonly convergenceDeg: string;
  readonly widthMm: string;
  readonly provisionalCement: string;
  readonly intaglioFromLab: string;
  readonly fitPaste: boolean;
  readonly tryInPaste: boolean;
  readonly isolation: string;
  /** Label of a cement on the shelf. */
  readonly cement: string;
  readonly countsCleanReason: string;
}

export interface CaseDraft {
  readonly reference: string;
  readonly invented: boolean;
  readonly team: string;
  readonly roomC: string;
  readonly units: readonly UnitDraft[];
  readonly shelf: ShelfDraft;
}

/** A unit nobody has said anything about; the usual answers are chosen, measurements are blank. */
export function emptyUnit(cement: string): UnitDraft {
  return {
    tooth: '',
    kind: 'crown',
    material: '',
    translucency: 'low',
    thicknessMm: '',
    substrate: '',
    heightMm: '',
    convergenceDeg: '',
    widthMm: '',
    provisionalCement: 'non-eugenol',
    intaglioFromLab: 'untreated',
    fitPaste: false,
    tryInPaste: false,
    isolation: 'dam',
    cement,
    countsCleanReason: '',
  };
}

/** A blank case on the given shelf, with one unit. */
export function emptyDraft(shelf: ShelfDraft = emptyShelf()): CaseDraft {
  return {
    reference: '',
    invented: false,
    team: 'assisted',
    roomC: '23',
    units: [emptyUnit(shelf.cements[0]?.label ?? '')],
    shelf,
  };
}

function unitDraft(unit: UnitFacts): UnitDraft {
  return {
    tooth: unit.tooth,
    kind: unit.kind,
    material: unit.material,
    translucency: unit.translucency,
    thicknessMm: textOf(unit.thicknessMm),
    substrate: unit.substrate,
    heightMm: textOf(unit.prep?.heightMm),
    convergenceDeg: textOf(unit.prep?.convergenceDeg),
    widthMm: textOf(unit.prep?.widthMm),
    provisionalCement: unit.provisionalCement,
    intaglioFromLab: unit.intaglioFromLab,
    fitPaste: unit.fitPaste,
    tryInPaste: unit.tryInPaste,
    isolation: unit.isolation,
    cement: unit.cement,
    countsCleanReason: unit.countsCleanReason ?? '',
  };
}

/** The form as it stands for a case already known. */
export function draftOf(file: CaseFile): CaseDraft {
  return {
    reference: file.reference,
    invented: file.invented,
    team: file.team,
    roomC: textOf(file.roomC),
    units: file.units.map(unitDraft),
    shelf: shelfDraft(file.shelf),
  };
}

/**
 * What the form says, in the shape of a case file but unchecked: blanks are left out and text that
 * is no number stays text, so that `checkCase` can name the field. Inverse of {@link draftOf} on valid cases.
 */
export function candidateOf(draft: CaseDraft): unknown {
  return {
    format: 'seatcall-case/1',
    ...optional('reference', draft.reference),
    invented: draft.invented,
    team: draft.team,
    roomC: numberOf(draft.roomC),
    units: draft.units.map((unit) => ({
      ...optional('tooth', unit.tooth),
      kind: unit.kind,
      ...optional('material', unit.material),
      translucency: unit.translucency,
      thicknessMm: numberOf(unit.thicknessMm),
      ...optional('substrate', unit.substrate),
      prep: {
        heightMm: numberOf(unit.heightMm),
        convergenceDeg: numberOf(unit.convergenceDeg),
        widthMm: numberOf(unit.widthMm),
      },
      provisionalCement: unit.provisionalCement,
      intaglioFromLab: unit.intaglioFromLab,
      fitPaste: unit.fitPaste,
      tryInPaste: unit.tryInPaste,
      isolation: unit.isolation,
      ...optional('cement', unit.cement),
      ...optional('countsCleanReason', unit.countsCleanReason),
    })),
    shelf: shelfCandidate(draft.shelf),
  };
}
