import type { Cement } from '../contract/index.ts';
import { atTemperature } from '../form/index.ts';
import { CEMENT_TABLE, CLOCK, SOURCES } from '../trade/index.ts';
import type { CementTable } from '../trade/index.ts';

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
 * room's. Setting time: from the shelf, else the longest of the class, later by what a cold room
 * adds to the working time. Gel: the class's window, shifted by as much as the working time differs.
 */
export const cementClock = (cement: Cement, roomC: number): CementClock => {
  const table: CementTable = CEMENT_TABLE[cement.class];
  const q10 = CLOCK.q10.target;
  const referenceC = CLOCK.reference.value;
  const shortest = table.working.min ?? table.working.target;
  const longest = table.setting.max ?? table.setting.target;

  const at23 = cement.workingS ?? shortest;
  const workingS = Math.max(1, Math.floor(atTemperature(at23, roomC, { q10, referenceC })));
  const base =
    cement.workingS === undefined
      ? `${at23} s at ${referenceC} degrees C, the shortest of ${shortest} to ${table.working.max} (${SOURCES.practice.cite})`
      : `${at23} s at ${referenceC} degrees C, instructions for use of ${cement.label}`;
  // A cold room lets the crown be seated later, so the set is later too; a warm one takes nothing off.
  const later = Math.max(0, workingS - at23);
  const settingS = (cement.settingS ?? longest) + later;
  const cold = later === 0 ? '' : `, and ${later} s for a seat as late as this room allows`;

  const shift = workingS - shortest;
  const gelAt = (seconds: number): number => Math.min(settingS, Math.max(1, seconds + shift));
  return {
    table,
    workingS,
    workingFrom:
      roomC === referenceC
        ? base
        : `${base}; ${workingS} s at ${roomC} degrees C (Q10 ${q10}, ${SOURCES.judgement.cite})`,
    settingS,
    settingFrom:
      cement.settingS === undefined
        ? `the longest of ${table.setting.min} to ${longest} s from mix (${SOURCES.practice.cite})${cold}`
        : `instructions for use of ${cement.label}${cold}`,
    gel: {
      minS: gelAt(table.gel.min ?? table.gel.target),
      targetS: gelAt(table.gel.target),
      maxS: gelAt(table.gel.max ?? table.gel.target),
    },
    gelFrom: `${table.gel.min} to ${table.gel.max} s from mix (${SOURCES.practice.cite})${shift === 0 ? '' : `, moved by ${shift} s with the working time`}`,
  };
};
