import { expect, test } from 'vitest';
import {
  count,
  dayOf,
  duration,
  minutes,
  secondsLeft,
  secondsUp,
  timeOfDay,
  windowWords,
} from '../../assistant/screens/format.ts';

test('time gone is never shown early, time left never as zero before it is over', () => {
  expect([0, 999, 1000, 19_999, 20_000].map(secondsUp)).toEqual([0, 0, 1, 19, 20]);
  expect([1, 1000, 1001, 0, -500].map(secondsLeft)).toEqual([1, 1, 2, 0, 0]);
});

test('minutes and seconds keep two digits of seconds', () => {
  expect([0, 9, 59, 60, 65, 600, -3].map(minutes)).toEqual([
    '0:00',
    '0:09',
    '0:59',
    '1:00',
    '1:05',
    '10:00',
    '0:00',
  ]);
});

test('a duration is in seconds below a minute, in minutes and seconds from there', () => {
  expect([5, 7.25, 60, 63, 180, 59.96].map(duration)).toEqual([
    '5 s',
    '7.3 s',
    '1 min',
    '1 min 3 s',
    '3 min',
    '1 min',
  ]);
});

test('a window says its ends and its aim', () => {
  expect(windowWords(15, 20, 60)).toBe('15 s to 1 min, aim for 20 s');
  expect(windowWords(60, 60, null)).toBe('at least 1 min, aim for 1 min');
  expect(windowWords(0, 30, null)).toBe('aim for 30 s');
});

test('a wall time is shown in the zone asked for, over midnight too', () => {
  expect(timeOfDay('2031-04-09T23:05:09.400Z', 120)).toBe('01:05:09');
  expect(dayOf('2031-04-09T23:05:09.400Z', 120)).toBe('2031-04-10');
  expect(dayOf('2031-01-01T00:30:00.000Z', -60)).toBe('2030-12-31');
});

test('one is singular', () => {
  expect([0, 1, 2].map((n) => count(n, 'entry', 'entries'))).toEqual([
    '0 entries',
    '1 entry',
    '2 entries',
  ]);
});
