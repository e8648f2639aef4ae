import type { Shelf, StepId } from '../contract/index.ts';

/** Times as instructions for use give them, seconds. */
export interface IfuTimes {
  readonly minS?: number | undefined;
  readonly targetS?: number | undefined;
  readonly maxS?: number | undefined;
}

interface Window {
  readonly minS: number;
  readonly targetS: number;
  readonly maxS: number | null;
}

interface Item {
  readonly label: string;
  readonly ifu?: IfuTimes | undefined;
}

/** Phosphoric acid's instructions are for the tooth: cleaning ceramic with it is another use. */
const ITEM_OF: Partial<Readonly<Record<StepId, (shelf: Shelf) => Item | null>>> = {
  abrade: ({ abrasion }) =>
    abrasion === null ? null : { label: 'the abrasion unit', ifu: abrasion.ifu },
  cleaner: ({ cleaner }) => cleaner,
  'porcelain-etch': ({ hydrofluoricAcid }) => hydrofluoricAcid,
  silane: ({ silane }) => silane,
  'zirconia-primer': ({ phosphatePrimer }) => phosphatePrimer,
  'metal-primer': ({ metalPrimer }) => metalPrimer,
  'core-primer': ({ metalPrimer }) => metalPrimer,
  'abutment-primer': ({ phosphatePrimer }) => phosphatePrimer,
  'tooth-etch': ({ phosphoricAcid }) => phosphoricAcid,
  bond: ({ adhesive }) => adhesive,
};

/** The shelf's times for a step, and the item they belong to; null when it gives none. */
export const ifuOf = (
  step: StepId,
  shelf: Shelf,
): { readonly label: string; readonly times: IfuTimes } | null => {
  const item = ITEM_OF[step]?.(shelf) ?? null;
  return item?.ifu === undefined ? null : { label: item.label, times: item.ifu };
};

/**
 * A built-in window with the shelf's times in it. A time given alone moves the others as little
 * as keeps the window in order; a target given without a minimum is the minimum too, since
 * instructions that say '60 s' do not allow 20.
 */
export const withIfu = (base: Window, ifu: IfuTimes): Window => {
  const slack = base.maxS === null ? null : base.maxS - base.targetS;
  const targetS =
    ifu.targetS ?? Math.min(Math.max(base.targetS, ifu.minS ?? base.targetS), ifu.maxS ?? Infinity);
  const minS = Math.min(ifu.minS ?? ifu.targetS ?? base.minS, targetS);
  const shifted = slack === null ? null : targetS + slack;
  return { minS, targetS, maxS: ifu.maxS ?? shifted };
};
