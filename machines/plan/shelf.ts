import type { Shelf, StepId } from '../contract/index.ts';

/** What must be on the shelf for a step that uses it up. Light is apart: see the tack and the cures. */
const SHELF_FOR = {
  abrade: 'abrasion',
  cleaner: 'cleaner',
  'porcelain-etch': 'hydrofluoricAcid',
  'acid-clean': 'phosphoricAcid',
  silane: 'silane',
  'zirconia-primer': 'phosphatePrimer',
  'metal-primer': 'metalPrimer',
  'base-abrade': 'abrasion',
  'core-primer': 'metalPrimer',
  'abutment-primer': 'phosphatePrimer',
  'tooth-etch': 'phosphoricAcid',
  bond: 'adhesive',
  tack: 'light',
  'cure-occlusal': 'light',
  'cure-buccal': 'light',
  'cure-lingual': 'light',
} as const satisfies Partial<Readonly<Record<StepId, keyof Shelf>>>;

type Needing = keyof typeof SHELF_FOR;
const needs = (step: StepId): step is Needing => Object.hasOwn(SHELF_FOR, step);

/** The shelf's field for a step; null when the step uses nothing from it. */
export const shelfField = (step: StepId): (typeof SHELF_FOR)[Needing] | null =>
  needs(step) ? SHELF_FOR[step] : null;

/** What a shelf holds of each field; null is known to be missing, undefined is not known. */
export type Means = Readonly<Partial<Record<(typeof SHELF_FOR)[Needing], unknown>>>;

/** False when the step needs something the shelf is known not to have. */
export const shelfHas = (shelf: Means, step: StepId): boolean => {
  const field = shelfField(step);
  return field === null || shelf[field] !== null;
};
