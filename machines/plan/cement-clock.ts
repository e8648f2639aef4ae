import type { Cement } from '../contract/index.ts';
import { atTemperature } from '../form/index.ts';
import type { CementTable, Trade } from '../trade/index.ts';
import { cite } from './cite.ts';

/** A cement's times in this room, in whole seconds from the start of the mix. */
export interface CementClock {
  readonly table: CementTable;
  readonly workingS: number;
  readonly workingFrom: string;
  readonly settingS: number;
  readonly settingFrom: string;
  readonly gel: { readonly minS: number; readonly targetS: number; readonly maxS: number };
  readonly gelFrom: string;
}

/**
 * Working time: from the shelf, else the shortest of the class; moved from 23 degrees C to the
 * room's, and halved where a primer (`touched`) speeds the cement. Setting time: from the shelf, else the longest of the class, later by what a cold room
 * adds to the working time. Gel: the class's window, shifted by as much as the working time differs.
 */
export const cementClock = (
  cement: Cement,
  roomC: number,
  trade: Trade,
  touched: string | null = null,
): CementClock => {
  const table = trade.cements[cement.class];
  const q10 = trade.clock.q10.target;
  const referenceC = trade.clock.reference.value;
  const shortest = table.working.min ?? table.working.target;
  const longest = table.setting.max ?? table.setting.target;

  const at23 = cement.workingS ?? shortest;
  const share = touched === null ? 1 : trade.limits.touchCure.value;
  // Light starts a light-cure cement, warmth does not.
  const unhurried = table.setsAlone ? atTemperature(at23, roomC, { q10, referenceC }) : at23;
  const workingS = Math.max(1, Math.floor(unhurried * share));
  const window =
    table.working.max === null || table.working.max === shortest
      ? `${at23} s`
      : `${at23} s at ${referenceC} degrees C, the shortest of ${shortest} to ${table.working.max}`;
  const base =
    cement.workingS === undefined
      ? `${window} (${cite(table.working)})`
      : `${at23} s at ${referenceC} degrees C, instructions for use of ${cement.label}`;
  const warm =
    roomC === referenceC || !table.setsAlone
      ? ''
      : `; ${Math.max(1, Math.floor(unhurried))} s at ${roomC} degrees C (Q10 ${q10}, ${cite(trade.clock.q10)})`;
  const halved =
    touched === null
      ? ''
      : `; times ${share} to ${workingS} s, because ${touched} speeds it on contact (${cite(trade.limits.touchCure)})`;
  // A cold room lets the crown be seated later, so the set is later too; a warm one takes nothing off.
  const later = Math.max(0, workingS - at23);
  const settingS = (cement.settingS ?? longest) + later;
  const cold = later === 0 ? '' : `, and ${later} s for a seat as late as this room allows`;

  const shift = workingS - shortest;
  const gelAt = (seconds: number): number => Math.min(settingS, Math.max(1, seconds + shift));
  return {
    table,
    workingS,
    workingFrom: `${base}${warm}${halved}`,
    settingS,
    settingFrom:
      cement.settingS === undefined
        ? `the longest of ${table.setting.min} to ${longest} s from mix (${cite(table.setting)})${cold}`
        : `instructions for use of ${cement.label}${cold}`,
    gel: {
      minS: gelAt(table.gel.min ?? table.gel.target),
      targetS: gelAt(table.gel.target),
      maxS: gelAt(table.gel.max ?? table.gel.target),
    },
    gelFrom: `${table.gel.min} to ${table.gel.max} s from mix (${cite(table.gel)})${shift === 0 ? '' : `, moved by ${shift} s with the working time`}`,
  };
};
