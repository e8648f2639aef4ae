/** One unit of the desk form as typed: what its kind does not ask for keeps its text and is left out. */
import type { UnitFacts } from '../../machines/contract/index.ts';
import { numberOf, optional, textOf } from './draft-values.ts';

/** A prep's measures, mm and degrees. */
export interface PrepDraft {
  readonly heightMm: string;
  readonly convergenceDeg: string;
  readonly widthMm: string;
  readonly groove: boolean;
}

export interface RetainerDraft extends PrepDraft {
  readonly tooth: string;
  /** Empty: the same as the unit's own. */
  readonly substrate: string;
}

export interface UnitDraft extends PrepDraft {
  readonly tooth: string;
  readonly kind: string;
  readonly material: string;
  readonly translucency: string;
  readonly darkShade: boolean;
  readonly thicknessMm: string;
  readonly substrate: string;
  /** Empty: the usual. */
  readonly bonding: string;
  readonly retainers: readonly RetainerDraft[];
  /** Teeth, with anything between them. */
  readonly pontics: string;
  readonly connectorMm2: string;
  readonly torqueNcm: string;
  readonly marginBelowGumMm: string;
  readonly provisionalCement: string;
  readonly intaglioFromLab: string;
  readonly fitPaste: boolean;
  readonly tryInPaste: boolean;
  readonly isolation: string;
  readonly astringent: string;
  readonly bleachedDaysAgo: string;
  readonly bleachedReason: string;
  readonly desensitiser: string;
  /** Label of a cement on the shelf. */
  readonly cement: string;
  readonly countsCleanReason: string;
  readonly belowMinimumReason: string;
}

const BLANK_PREP: PrepDraft = { heightMm: '', convergenceDeg: '', widthMm: '', groove: false };
/** A further retainer nobody has described yet. */
export const BLANK_RETAINER: RetainerDraft = { ...BLANK_PREP, tooth: '', substrate: '' };

/** Kinds that are held by the form of a full prep. */
export const isPrepared = (kind: string): boolean =>
  ['crown', 'bridge', 'implant-crown'].includes(kind);
/** Kinds that replace teeth. */
export const isBridge = (kind: string): boolean => ['bridge', 'resin-bonded-bridge'].includes(kind);

/** A unit nobody has said anything about; the usual answers are chosen, measurements are blank. */
export function emptyUnit(cement: string): UnitDraft {
  return {
    ...BLANK_PREP,
    tooth: '',
    kind: 'crown',
    material: '',
    translucency: 'low',
    darkShade: false,
    thicknessMm: '',
    substrate: '',
    bonding: '',
    retainers: [],
    pontics: '',
    connectorMm2: '',
    torqueNcm: '',
    marginBelowGumMm: '',
    provisionalCement: 'non-eugenol',
    intaglioFromLab: 'untreated',
    fitPaste: false,
    tryInPaste: false,
    isolation: 'dam',
    astringent: '',
    bleachedDaysAgo: '',
    bleachedReason: '',
    desensitiser: '',
    cement,
    countsCleanReason: '',
    belowMinimumReason: '',
  };
}

const prepDraft = (prep: UnitFacts['prep']): PrepDraft => ({
  heightMm: textOf(prep?.heightMm),
  convergenceDeg: textOf(prep?.convergenceDeg),
  widthMm: textOf(prep?.widthMm),
  groove: prep?.groove ?? false,
});

/** The form as it stands for a unit already known. */
export function unitDraft(unit: UnitFacts): UnitDraft {
  return {
    ...prepDraft(unit.prep),
    tooth: unit.tooth,
    kind: unit.kind,
    material: unit.material,
    translucency: unit.translucency,
    darkShade: unit.darkShade ?? false,
    thicknessMm: textOf(unit.thicknessMm),
    substrate: unit.substrate,
    bonding: unit.bonding ?? '',
    retainers: (unit.bridge?.retainers ?? []).map(({ tooth, prep, substrate }) => ({
      ...prepDraft(prep),
      tooth,
      substrate: substrate ?? '',
    })),
    pontics: (unit.bridge?.pontics ?? []).join(', '),
    connectorMm2: textOf(unit.bridge?.connectorMm2),
    torqueNcm: textOf(unit.abutment?.torqueNcm),
    marginBelowGumMm: textOf(unit.abutment?.marginBelowGumMm),
    provisionalCement: unit.provisionalCement,
    intaglioFromLab: unit.intaglioFromLab,
    fitPaste: unit.fitPaste,
    tryInPaste: unit.tryInPaste,
    isolation: unit.isolation,
    astringent: unit.astringent ?? '',
    bleachedDaysAgo: textOf(unit.bleachedDaysAgo),
    bleachedReason: unit.bleachedReason ?? '',
    desensitiser: unit.desensitiser ?? '',
    cement: unit.cement,
    countsCleanReason: unit.countsCleanReason ?? '',
    belowMinimumReason: unit.belowMinimumReason ?? '',
  };
}

const isBlank = ({ heightMm, convergenceDeg, widthMm }: PrepDraft): boolean =>
  [heightMm, convergenceDeg, widthMm].every((text) => text.trim() === '');

const prepCandidate = (prep: PrepDraft, needed: boolean): object =>
  !needed && isBlank(prep)
    ? {}
    : {
        prep: {
          heightMm: numberOf(prep.heightMm),
          convergenceDeg: numberOf(prep.convergenceDeg),
          widthMm: numberOf(prep.widthMm),
          ...(prep.groove ? { groove: true } : {}),
        },
      };

const bridgeCandidate = (unit: UnitDraft): object =>
  isBridge(unit.kind)
    ? {
        bridge: {
          retainers: unit.retainers.map((one) => ({
            ...optional('tooth', one.tooth),
            ...prepCandidate(one, unit.kind === 'bridge'),
            ...optional('substrate', one.substrate),
          })),
          pontics: unit.pontics.split(/[^\d]+/u).filter((tooth) => tooth !== ''),
          connectorMm2: numberOf(unit.connectorMm2),
        },
      }
    : {};

function abutmentCandidate({ kind, torqueNcm, marginBelowGumMm }: UnitDraft): object {
  const abutment = {
    ...optional('torqueNcm', numberOf(torqueNcm)),
    ...optional('marginBelowGumMm', numberOf(marginBelowGumMm)),
  };
  return kind === 'implant-crown' && Object.keys(abutment).length > 0 ? { abutment } : {};
}

/** What the form says of a unit, in the shape of a case file but unchecked. Inverse of {@link unitDraft} on valid units. */
export function unitCandidate(unit: UnitDraft): object {
  return {
    ...optional('tooth', unit.tooth),
    kind: unit.kind,
    ...optional('material', unit.material),
    translucency: unit.translucency,
    ...(unit.darkShade ? { darkShade: true } : {}),
    thicknessMm: numberOf(unit.thicknessMm),
    ...optional('substrate', unit.substrate),
    ...optional('bonding', unit.bonding),
    ...prepCandidate(unit, isPrepared(unit.kind)),
    ...bridgeCandidate(unit),
    ...abutmentCandidate(unit),
    provisionalCement: unit.provisionalCement,
    intaglioFromLab: unit.intaglioFromLab,
    fitPaste: unit.fitPaste,
    tryInPaste: unit.tryInPaste,
    isolation: unit.isolation,
    ...optional('astringent', unit.astringent),
    ...optional('bleachedDaysAgo', numberOf(unit.bleachedDaysAgo)),
    ...optional('bleachedReason', unit.bleachedReason),
    ...optional('desensitiser', unit.desensitiser),
    ...optional('cement', unit.cement),
    ...optional('countsCleanReason', unit.countsCleanReason),
    ...optional('belowMinimumReason', unit.belowMinimumReason),
  };
}
