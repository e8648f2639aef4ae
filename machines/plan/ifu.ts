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

/** The shelf's times for a step, and the item they belong to; null when it gives none. */
export const ifuOf = (
  step: StepId,
  shelf: Shelf,
): { readonly label: string; readonly times: IfuTimes } | null => {
  const item = (() => {
    switch (step) {
      case 'abrade':
        return shelf.abrasion === null ? null : { label: 'the abrasion unit', ...shelf.abrasion };
      case 'cleaner':
        return shelf.cleaner;
      case 'porcelain-etch':
        return shelf.hydrofluoricAcid;
      case 'silane':
        return shelf.silane;
      case 'zirconia-primer':
        return shelf.phosphatePrimer;
      // Instructions of phosphoric acid are for the tooth: cleaning ceramic with it is another use.
      case 'tooth-etch':
        return shelf.phosphoricAcid;
      case 'bond':
        return shelf.adhesive;
      default:
        return null;
    }
  })();
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
  const shifted =
    slack === null || base.maxS === null
      ? null
      : ifu.targetS === undefined
        ? Math.max(base.maxS, targetS)
        : targetS + slack;
  return { minS, targetS, maxS: ifu.maxS ?? shifted };
};
