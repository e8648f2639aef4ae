import { dayOf } from '../../machines/review/days.ts';
import type { FollowUp } from '../../machines/review/pattern/index.ts';
import { hazardOf, SURVIVAL_ANCHORS, WEIGHING } from '../../machines/trade/index.ts';
import type { DebondEventId } from '../../machines/trade/index.ts';
import type { Material } from '../../machines/contract/index.ts';
import type { Chance } from './cohort-chance.ts';
import { STUDY_END } from './cohort-practice.ts';

/**
 * Invented: what each event of the seating multiplies the hazard by. No source gives one; they are
 * what the review has to find again.
 */
export const HAZARD_RATIOS: Readonly<Partial<Record<DebondEventId, number>>> = {
  'not-decontaminated': 4,
  'not-abraded': 5,
  'no-primer': 3,
  'not-etched': 6,
  residue: 2,
  'tooth-soiled': 3,
  'tooth-conditioning': 1.8,
  'late-seat': 5,
  moved: 2.5,
  'under-cured': 2,
  'fit-unchecked': 1.5,
};
/** Invented: the same of the bad lot. */
export const BAD_LOT_RATIO = 3;

/**
 * Invented: the hazard against its mean over five years, by spell in place: debonds cluster early
 * (handling) and late (form, decay). Weighed by the length of the spells the first three make 1.
 */
const SHAPE = [3, 1.4, 0.867, 1.1] as const;
const DAYS_IN_YEAR = WEIGHING.year.value;
const ENDS = [WEIGHING.month.value, DAYS_IN_YEAR, 5 * DAYS_IN_YEAR, Infinity] as const;

/** Anchored where the trade has a figure: loss of retention of zirconia crowns, loss of glass-ceramic ones. */
const anchorOf = (material: Material): number =>
  hazardOf(
    material.startsWith('zirconia')
      ? SURVIVAL_ANCHORS['zirconia-crown-retention']
      : SURVIVAL_ANCHORS['glass-ceramic-crown'],
  );

/** Days until it comes off, from a hazard a year: piecewise constant, inverted. */
function daysToLoss(hazard: number, chance: Chance): number {
  let left = chance.exponential();
  let from = 0;
  for (const [spell, end] of ENDS.entries()) {
    const daily = (hazard * (SHAPE[spell] ?? 1)) / DAYS_IN_YEAR;
    const here = daily * (end - from);
    if (left < here) return from + left / daily;
    left -= here;
    from = end;
  }
  return Infinity;
}

/** What a crown's loss is drawn from. */
export interface Fate {
  readonly material: Material;
  readonly events: readonly DebondEventId[];
  readonly badLot: boolean;
  /** Multiplies every hazard: more to see in fewer records. 1 for a practice that is believable. */
  readonly haste: number;
}

const DAY = 86_400_000;
const dateOf = (day: number): string => new Date(day * DAY).toISOString().slice(0, 10);

/** What recalls of one crown said: what was seen last, and sometimes a visit before it. */
export function recalls(
  seated: string,
  reference: string,
  tooth: string,
  fate: Fate,
  chance: Chance,
): readonly FollowUp[] {
  const ratios = fate.events.reduce((so, id) => so * (HAZARD_RATIOS[id] ?? 1), 1);
  const hazard = anchorOf(fate.material) * ratios * (fate.badLot ? BAD_LOT_RATIO : 1) * fate.haste;
  const start = dayOf(seated) ?? 0;
  const loss = Math.floor(daysToLoss(hazard, chance));
  // Patients move away: half within nine years.
  const stays = Math.floor((chance.exponential() * 9 * DAYS_IN_YEAR) / Math.LN2);
  const seen = Math.min(Math.floor(STUDY_END / DAY) - start, stays);
  const base = { reference, tooth, seated: dateOf(start) };
  const early = Math.min(chance.whole(7, 20), seen);
  const visit = { ...base, lastSeen: dateOf(start + early) };
  const first = chance.hits(0.4) && loss > early ? [visit] : [];
  if (loss > seen) return [...first, { ...base, lastSeen: dateOf(start + seen) }];
  const lost = dateOf(start + loss);
  return [...first, { ...base, lastSeen: lost, debonded: lost }];
}
