import { dayOf } from '../review/days.ts';

const DAY_MS = 86_400_000;
const two = (value: number): string => `${value}`.padStart(2, '0');

/** Days since 1970-01-01 as year, month and day of the Gregorian calendar. */
function dateOf(days: number): string {
  // The year begins in March, so that the leap day is its last.
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const day = shifted - era * 146_097;
  const year = Math.floor(
    (day - Math.floor(day / 1460) + Math.floor(day / 36_524) - Math.floor(day / 146_096)) / 365,
  );
  const of = day - (365 * year + Math.floor(year / 4) - Math.floor(year / 100));
  const march = Math.floor((5 * of + 2) / 153);
  const month = march < 10 ? march + 3 : march - 9;
  const full = era * 400 + year + (month <= 2 ? 1 : 0);
  const date = of - Math.floor((153 * march + 2) / 5) + 1;
  return `${`${full}`.padStart(4, '0')}-${two(month)}-${two(date)}`;
}

/**
 * The instant `ms` milliseconds after an ISO 8601 instant in UTC, to the millisecond. Case time
 * never runs backwards, so that events told by it stay in their order when the wall clock was set.
 */
export function instantAfter(opened: string, ms: number): string {
  const clock = /T(\d{2}):(\d{2}):(\d{2})(?:\.(\d+))?Z$/.exec(opened);
  const day = dayOf(opened);
  if (clock === null || day === null) return opened;
  const [hours = 0, minutes = 0, seconds = 0] = clock.slice(1, 4).map(Number);
  const part = Math.round(Number(`0.${clock[4] ?? '0'}`) * 1000);
  const total =
    day * DAY_MS + ((hours * 60 + minutes) * 60 + seconds) * 1000 + part + Math.round(ms);
  const rest = total - Math.floor(total / DAY_MS) * DAY_MS;
  const time = [
    Math.floor(rest / 3_600_000),
    Math.floor(rest / 60_000) % 60,
    Math.floor(rest / 1000) % 60,
  ];
  return `${dateOf(Math.floor(total / DAY_MS))}T${time.map(two).join(':')}.${`${rest % 1000}`.padStart(3, '0')}Z`;
}
