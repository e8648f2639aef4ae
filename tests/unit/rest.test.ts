import { beforeEach, expect, it } from 'vitest';
import { REST_AFTER_MS, Rest, WAKE_MS } from '../../assistant/voice/rest.ts';
import { type MadeClock, madeClock } from '../made-clock.ts';

let clock: MadeClock;
let log: string[];
let rest: Rest;
/** Whether the loudspeaker's device wakes when it is told to. */
let wakes: boolean;

const settle = async (): Promise<void> => {
  for (let turn = 0; turn < 10; turn += 1) await Promise.resolve();
};

beforeEach(() => {
  clock = madeClock();
  log = [];
  wakes = true;
  rest = new Rest(clock, () => ({
    resume: () => {
      log.push(`${clock.now()} resume`);
      return wakes ? Promise.resolve() : new Promise(() => undefined);
    },
    suspend: () => {
      log.push(`${clock.now()} suspend`);
      return Promise.reject(new Error('not running'));
    },
  }));
});

it('rests a while after the last sound, and only then has to be woken', async () => {
  await rest.wake(2_000);
  clock.runTo(1_000);
  await rest.wake(3_000);
  // Shorter than what sounds already.
  await rest.wake(100);
  clock.runTo(60_000);
  expect(log).toEqual([`${4_000 + REST_AFTER_MS} suspend`]);
  await rest.wake(500);
  await rest.wake(500);
  expect(log.slice(1)).toEqual(['60000 resume']);
  clock.runTo(90_000);
  expect(log.slice(2)).toEqual([`${60_500 + REST_AFTER_MS} suspend`]);
});

it('does not wait long for a device that does not wake', async () => {
  await rest.wake(0);
  clock.runTo(10_000);
  wakes = false;
  let isAwake = false;
  void rest.wake(0).then(() => (isAwake = true));
  clock.runTo(10_000 + WAKE_MS - 1);
  await settle();
  expect(isAwake).toBe(false);
  clock.runTo(10_000 + WAKE_MS);
  await settle();
  expect(isAwake).toBe(true);
});
