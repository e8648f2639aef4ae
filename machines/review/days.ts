/** Days of each month before it began, in a year that begins in March. */
const MARCH_YEAR_DAYS = (month: number): number => Math.floor((153 * ((month + 9) % 12) + 2) / 5);

/**
 * Days from 1970-01-01 to the day of an ISO 8601 date or date and time, in the Gregorian calendar;
 * null when the text does not begin with one. The time of day is left out.
 */
export function dayOf(text: string): number | null {
  const found = /^(\d{4})-(\d{2})-(\d{2})(?:T|$)/.exec(text);
  if (found === null) return null;
  const [year, month, day] = found.slice(1).map(Number);
  if (year === undefined || month === undefined || day === undefined) return null;
  if (month < 1 || month > 12 || day < 1 || day > 31) return null;
  // The leap day comes last in a year that begins in March.
  const y = month <= 2 ? year - 1 : year;
  const leaps = Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  return 365 * y + leaps + MARCH_YEAR_DAYS(month) + day - 1 - 719_468;
}
