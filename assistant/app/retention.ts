/** How long records have to be kept. */
import type { CaseSummary } from '../store/store.ts';

/**
 * The last day on which a record has to be kept: the day of its last line, so many years on, and
 * 28 February where that year has no 29th. `lastWall`: ISO 8601 in UTC; the day is UTC's too.
 */
export function keptUntil(lastWall: string, years: number): string {
  const year = String(Number(lastWall.slice(0, 4)) + years).padStart(4, '0');
  const day = lastWall.slice(4, 10);
  const leap = new Date(`${year}-02-29T00:00:00Z`).getUTCMonth() === 1;
  return `${year}${day === '-02-29' && !leap ? '-02-28' : day}`;
}

/** Ids of the cases that need not be kept any longer on the day of `wall` (ISO 8601 in UTC). */
export function pastKeeping(
  cases: readonly Pick<CaseSummary, 'caseId' | 'lastWall'>[],
  years: number | null,
  wall: string,
): readonly string[] {
  if (years === null) return [];
  const today = wall.slice(0, 10);
  return cases
    .filter(({ lastWall }) => keptUntil(lastWall, years) < today)
    .map(({ caseId }) => caseId);
}
