/** Times, as people read them. Pure. */

/** Milliseconds as whole seconds counted up: 19 999 ms is 19, so "20" is never shown early. */
export const secondsUp = (ms: number): number => Math.max(0, Math.floor(ms / 1000));

/** Milliseconds as whole seconds counted down: 1 ms left is still 1. */
export const secondsLeft = (ms: number): number => Math.max(0, Math.ceil(ms / 1000));

/** Seconds as minutes and seconds: `0:45`, `1:05`. */
export function minutes(seconds: number): string {
  const whole = Math.max(0, Math.trunc(seconds));
  return `${Math.trunc(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Seconds with their unit: `20 s`, `1 min`, `1 min 30 s`; tenths are kept. */
export function duration(seconds: number): string {
  const tenths = Math.round(seconds * 10) / 10;
  if (tenths < 60) return `${tenths} s`;
  const whole = Math.round(seconds);
  const rest = whole % 60;
  const mins = `${Math.trunc(whole / 60)} min`;
  return rest === 0 ? mins : `${mins} ${rest} s`;
}

/** A dwell's window: `15 to 60 s, aim for 20 s`. */
export function windowWords(minS: number, targetS: number, maxS: number | null): string {
  const aim = `aim for ${duration(targetS)}`;
  if (maxS === null) return minS > 0 ? `at least ${duration(minS)}, ${aim}` : aim;
  return `${duration(minS)} to ${duration(maxS)}, ${aim}`;
}

const pad = (value: number): string => String(value).padStart(2, '0');

/** Time of day from ISO 8601 in UTC, shifted by `offsetMinutes` (`-getTimezoneOffset()`): `14:05:09`. */
export function timeOfDay(iso: string, offsetMinutes: number): string {
  const date = new Date(Date.parse(iso) + offsetMinutes * 60_000);
  return [date.getUTCHours(), date.getUTCMinutes(), date.getUTCSeconds()].map(pad).join(':');
}

/** Date from ISO 8601 in UTC, shifted likewise: `2031-04-09`. */
export function dayOf(iso: string, offsetMinutes: number): string {
  const date = new Date(Date.parse(iso) + offsetMinutes * 60_000);
  return `${date.getUTCFullYear()}-${pad(date.getUTCMonth() + 1)}-${pad(date.getUTCDate())}`;
}

/** `1 entry`, `2 entries`. */
export const count = (n: number, one: string, many: string): string =>
  `${n} ${n === 1 ? one : many}`;
