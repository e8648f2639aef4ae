/** The practice's shelf as a form holds it: what is not held keeps its text, so unticking loses nothing. */
import type { Cement, Shelf } from '../../machines/contract/index.ts';
import { numberOf, optional, textOf } from './draft-values.ts';

/** One material: its name, lot, expiry, and times from its instructions for use. */
export interface ItemDraft {
  readonly held: boolean;
  readonly label: string;
  readonly lot: string;
  readonly expires: string;
  readonly minS: string;
  readonly targetS: string;
  readonly maxS: string;
}

export interface CementDraft {
  readonly label: string;
  readonly class: string;
  readonly carriesPhosphate: boolean;
  readonly lot: string;
  readonly expires: string;
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
  'adhesive',
] as const;
export type ItemKey = (typeof ITEMS)[number];

export interface ShelfDraft extends Readonly<Record<ItemKey, ItemDraft>> {
  readonly acidPercent: string;
  readonly abrasion: {
    readonly held: boolean;
    readonly particleUm: string;
    readonly bar: string;
    readonly minS: string;
    readonly targetS: string;
    readonly maxS: string;
  };
  readonly light: { readonly held: boolean; readonly mwCm2: string };
  readonly cements: readonly CementDraft[];
}

const blankItem: ItemDraft = {
  held: false,
  label: '',
  lot: '',
  expires: '',
  minS: '',
  targetS: '',
  maxS: '',
};

/** A cement nobody has described yet. */
export const blankCement: CementDraft = {
  label: '',
  class: '',
  carriesPhosphate: false,
  lot: '',
  expires: '',
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
    adhesive: blankItem,
    acidPercent: '5',
    abrasion: { held: false, particleUm: '50', bar: '2', minS: '', targetS: '', maxS: '' },
    light: { held: false, mwCm2: '' },
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
    lot: item.lot ?? '',
    expires: item.expires ?? '',
    ...timesDraft(item.ifu),
  };
}

const cementDraft = (cement: Cement): CementDraft => ({
  label: cement.label,
  class: cement.class,
  carriesPhosphate: cement.carriesPhosphate,
  lot: cement.lot ?? '',
  expires: cement.expires ?? '',
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
    adhesive: itemDraft(shelf.adhesive),
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
    light: shelf.light === null ? blank.light : { held: true, mwCm2: textOf(shelf.light.mwCm2) },
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

const bought = (item: Pick<ItemDraft, 'label' | 'lot' | 'expires'>): object => ({
  ...optional('label', item.label),
  ...optional('lot', item.lot),
  ...optional('expires', item.expires),
});

const itemCandidate = (item: ItemDraft): object | null =>
  item.held ? { ...bought(item), ...ifuCandidate(item) } : null;

/** What the form says, in the shape of a shelf but unchecked. */
export function shelfCandidate(draft: ShelfDraft): object {
  const { abrasion, hydrofluoricAcid: acid, light } = draft;
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
    silane: itemCandidate(draft.silane),
    phosphatePrimer: itemCandidate(draft.phosphatePrimer),
    adhesive: itemCandidate(draft.adhesive),
    cements: draft.cements.map((cement) => ({
      ...bought(cement),
      ...optional('class', cement.class),
      carriesPhosphate: cement.carriesPhosphate,
      ...optional('workingS', numberOf(cement.workingS)),
      ...optional('settingS', numberOf(cement.settingS)),
    })),
    light: light.held ? { mwCm2: numberOf(light.mwCm2) } : null,
  };
}
