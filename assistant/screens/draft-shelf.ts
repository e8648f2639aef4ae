/** The practice's shelf as a form holds it: what is not held keeps its text, so unticking loses nothing. */
import type { Cement, Shelf } from '../../machines/contract/index.ts';
import { numberOf, optional, textOf } from './draft-values.ts';

/** One material: its name, lot, expiry, and times from its instructions for use. */
export interface ItemDraft {
  readonly held: boolean;
  readonly label: string;
  /** Device identifier of the UDI. */
  readonly gtin: string;
  readonly lot: string;
  readonly expires: string;
  readonly expiredReason: string;
  /** A barcode as scanned or typed; read once, and no part of the case. */
  readonly code: string;
  readonly minS: string;
  readonly targetS: string;
  readonly maxS: string;
}

export interface CementDraft {
  readonly label: string;
  readonly class: string;
  readonly carriesPhosphate: boolean;
  /** Empty: not known. */
  readonly amine: string;
  readonly gtin: string;
  readonly lot: string;
  readonly expires: string;
  readonly expiredReason: string;
  readonly code: string;
  readonly workingS: string;
  readonly settingS: string;
}

/** Shelf items that are a material with a label. */
export const ITEMS = [
  'cleaner',
  'hydrofluoricAcid',
  'phosphoricAcid',
  'silane',
  'phosphatePrimer',
  'metalPrimer',
  'adhesive',
] as const;
export type ItemKey = (typeof ITEMS)[number];
/** Items that may speed a cement on contact. */
export const TOUCHING = [
  'silane',
  'phosphatePrimer',
  'metalPrimer',
  'adhesive',
] as const satisfies readonly ItemKey[];

/** A number of the trade tables as this practice has it. */
export interface NumberDraft {
  readonly path: string;
  readonly value: string;
  readonly min: string;
  readonly target: string;
  readonly max: string;
  readonly from: string;
}

/** A number nobody has named yet. */
export const blankNumber: NumberDraft = {
  path: '',
  value: '',
  min: '',
  target: '',
  max: '',
  from: '',
};

export interface ShelfDraft extends Readonly<Record<ItemKey, ItemDraft>> {
  readonly acidPercent: string;
  /** Of the metal primer. */
  readonly monomer: string;
  /** Of the adhesive; empty: not known. */
  readonly acidic: string;
  readonly activator: boolean;
  /** Items that speed the cement on contact. */
  readonly touchCure: readonly ItemKey[];
  readonly abrasion: {
    readonly held: boolean;
    readonly particleUm: string;
    readonly bar: string;
    readonly minS: string;
    readonly targetS: string;
    readonly maxS: string;
  };
  readonly light: {
    readonly held: boolean;
    readonly mwCm2: string;
    readonly baselineMwCm2: string;
  };
  /** Numbers of the trade tables as the practice has them. */
  readonly numbers: readonly NumberDraft[];
  readonly cements: readonly CementDraft[];
}

const blankItem: ItemDraft = {
  held: false,
  label: '',
  gtin: '',
  lot: '',
  expires: '',
  expiredReason: '',
  code: '',
  minS: '',
  targetS: '',
  maxS: '',
};

/** A cement nobody has described yet. */
export const blankCement: CementDraft = {
  label: '',
  class: '',
  carriesPhosphate: false,
  amine: '',
  gtin: '',
  lot: '',
  expires: '',
  expiredReason: '',
  code: '',
  workingS: '',
  settingS: '',
};

/** A shelf with nothing on it but room for one cement. */
export function emptyShelf(): ShelfDraft {
  return {
    cleaner: blankItem,
    hydrofluoricAcid: blankItem,
    phosphoricAcid: blankItem,
    silane: blankItem,
    phosphatePrimer: blankItem,
    metalPrimer: blankItem,
    adhesive: blankItem,
    acidPercent: '5',
    monomer: 'both',
    acidic: '',
    activator: false,
    touchCure: [],
    numbers: [],
    abrasion: { held: false, particleUm: '50', bar: '2', minS: '', targetS: '', maxS: '' },
    light: { held: false, mwCm2: '', baselineMwCm2: '' },
    cements: [blankCement],
  };
}

type Item = NonNullable<Shelf['cleaner']>;

const timesDraft = (ifu: Item['ifu']): Pick<ItemDraft, 'minS' | 'targetS' | 'maxS'> => ({
  minS: textOf(ifu?.minS),
  targetS: textOf(ifu?.targetS),
  maxS: textOf(ifu?.maxS),
});

function itemDraft(item: Item | null): ItemDraft {
  if (item === null) return blankItem;
  return {
    held: true,
    label: item.label,
    gtin: item.gtin ?? '',
    lot: item.lot ?? '',
    expires: item.expires ?? '',
    expiredReason: item.expiredReason ?? '',
    code: '',
    ...timesDraft(item.ifu),
  };
}

/** Yes, no, or not known. */
const triOf = (value: boolean | undefined): string =>
  value === undefined ? '' : value ? 'yes' : 'no';
const triValue = (text: string): boolean | undefined => (text === '' ? undefined : text === 'yes');

const cementDraft = (cement: Cement): CementDraft => ({
  label: cement.label,
  class: cement.class,
  carriesPhosphate: cement.carriesPhosphate,
  amine: triOf(cement.amine),
  gtin: cement.gtin ?? '',
  lot: cement.lot ?? '',
  expires: cement.expires ?? '',
  expiredReason: cement.expiredReason ?? '',
  code: '',
  workingS: textOf(cement.workingS),
  settingS: textOf(cement.settingS),
});

/** The form as it stands for a shelf already known. */
export function shelfDraft(shelf: Shelf): ShelfDraft {
  const blank = emptyShelf();
  return {
    cleaner: itemDraft(shelf.cleaner),
    hydrofluoricAcid: itemDraft(shelf.hydrofluoricAcid),
    phosphoricAcid: itemDraft(shelf.phosphoricAcid),
    silane: itemDraft(shelf.silane),
    phosphatePrimer: itemDraft(shelf.phosphatePrimer),
    metalPrimer: itemDraft(shelf.metalPrimer),
    adhesive: itemDraft(shelf.adhesive),
    monomer: shelf.metalPrimer?.monomer ?? blank.monomer,
    acidic: triOf(shelf.adhesive?.acidic),
    activator: shelf.adhesive?.activator ?? false,
    touchCure: TOUCHING.filter((key) => shelf[key]?.touchCure === true),
    numbers: (shelf.numbers ?? []).map(({ path, value, min, target, max, from }) => ({
      path,
      value: textOf(value),
      min: textOf(min ?? undefined),
      target: textOf(target),
      max: textOf(max ?? undefined),
      from,
    })),
    acidPercent: textOf(shelf.hydrofluoricAcid?.percent) || blank.acidPercent,
    abrasion:
      shelf.abrasion === null
        ? blank.abrasion
        : {
            held: true,
            particleUm: textOf(shelf.abrasion.particleUm),
            bar: textOf(shelf.abrasion.bar),
            ...timesDraft(shelf.abrasion.ifu),
          },
    light:
      shelf.light === null
        ? blank.light
        : {
            held: true,
            mwCm2: textOf(shelf.light.mwCm2),
            baselineMwCm2: textOf(shelf.light.baselineMwCm2),
          },
    cements: shelf.cements.map(cementDraft),
  };
}

function ifuCandidate(item: Pick<ItemDraft, 'minS' | 'targetS' | 'maxS'>): object {
  const ifu = {
    ...optional('minS', numberOf(item.minS)),
    ...optional('targetS', numberOf(item.targetS)),
    ...optional('maxS', numberOf(item.maxS)),
  };
  return Object.keys(ifu).length === 0 ? {} : { ifu };
}

const bought = (
  item: Pick<ItemDraft, 'label' | 'gtin' | 'lot' | 'expires' | 'expiredReason'>,
): object => ({
  ...optional('label', item.label),
  ...optional('gtin', item.gtin),
  ...optional('lot', item.lot),
  ...optional('expires', item.expires),
  ...optional('expiredReason', item.expiredReason),
});

const itemCandidate = (item: ItemDraft): object | null =>
  item.held ? { ...bought(item), ...ifuCandidate(item) } : null;

/** What the form says, in the shape of a shelf but unchecked. */
export function shelfCandidate(draft: ShelfDraft): object {
  const { abrasion, hydrofluoricAcid: acid, light } = draft;
  const primer = (key: (typeof TOUCHING)[number], more: object = {}): object | null => {
    const item = itemCandidate(draft[key]);
    if (item === null) return null;
    return { ...item, ...(draft.touchCure.includes(key) ? { touchCure: true } : {}), ...more };
  };
  return {
    abrasion: abrasion.held
      ? {
          particleUm: numberOf(abrasion.particleUm),
          bar: numberOf(abrasion.bar),
          ...ifuCandidate(abrasion),
        }
      : null,
    cleaner: itemCandidate(draft.cleaner),
    hydrofluoricAcid: acid.held
      ? { ...itemCandidate(acid), percent: numberOf(draft.acidPercent) }
      : null,
    phosphoricAcid: itemCandidate(draft.phosphoricAcid),
    silane: primer('silane'),
    phosphatePrimer: primer('phosphatePrimer'),
    metalPrimer: primer('metalPrimer', { monomer: draft.monomer }),
    adhesive: primer('adhesive', {
      ...optional('acidic', triValue(draft.acidic)),
      ...(draft.activator ? { activator: true } : {}),
    }),
    cements: draft.cements.map((cement) => ({
      ...bought(cement),
      ...optional('class', cement.class),
      carriesPhosphate: cement.carriesPhosphate,
      ...optional('amine', triValue(cement.amine)),
      ...optional('workingS', numberOf(cement.workingS)),
      ...optional('settingS', numberOf(cement.settingS)),
    })),
    light: light.held
      ? {
          mwCm2: numberOf(light.mwCm2),
          ...optional('baselineMwCm2', numberOf(light.baselineMwCm2)),
        }
      : null,
    ...(draft.numbers.length === 0
      ? {}
      : {
          numbers: draft.numbers.map((own) => ({
            ...optional('path', own.path),
            ...optional('value', numberOf(own.value)),
            ...optional('min', numberOf(own.min)),
            ...optional('target', numberOf(own.target)),
            ...optional('max', numberOf(own.max)),
            ...optional('from', own.from),
          })),
        }),
  };
}
