import fc from 'fast-check';
import { expect, it } from 'vitest';
import { levelOf } from '../../assistant/ear/level.ts';
import type { Pcm } from '../../assistant/ear/port.ts';
import { type Handed, RestKeeper } from '../../assistant/ear/rest-keeper.ts';
import { FRAME_SAMPLES, KEPT_BACK } from '../../assistant/ear/vad/constants.ts';
import { hiss } from '../speech/noise.ts';

/** Hiss, a second or so at each level. */
const roomOf = (levels: readonly number[]): Pcm =>
  hiss(levels.length * 16_000, 7).map(
    (x, i) => x * 10 ** ((levels[Math.floor(i / 16_000)] ?? 0) / 20),
  );

/** What is handed over of `sound` in pieces of `length`; held open from `openFrom` on. */
function handedOf(
  sound: Pcm,
  length: number,
  whole = false,
  openFrom = Infinity,
): readonly Handed[] {
  const all: Handed[] = [];
  const onHanded = (handed: Handed): void => void all.push(handed);
  const keeper = new RestKeeper({ frameSamples: FRAME_SAMPLES, whole, onHanded });
  for (let at = 0; at < sound.length; at += length) {
    keeper.open = at >= openFrom;
    keeper.push(sound.subarray(at, at + length));
  }
  return all;
}

const soundIn = (handed: readonly Handed[]) =>
  handed.flatMap((one) => (one.kind === 'sound' ? [one] : []));

const isSame = (one: Pcm, other: Pcm): boolean =>
  one.length === other.length && one.every((sample, at) => sample === other[at]);

const levels = fc.array(fc.constantFrom(-70, -60, -40, -20), { minLength: 1, maxLength: 12 });
const lengths = fc.constantFrom(128, 100, 512, 700, 5_000);

it('what is handed over is the sound as it came, and what is not is counted', () => {
  fc.assert(
    fc.property(levels, lengths, (room, length) => {
      const sound = roomOf(room);
      let at = 0;
      for (const { sound: piece, rested } of soundIn(handedOf(sound, length))) {
        at += rested;
        expect(isSame(piece, sound.subarray(at, at + piece.length))).toBe(true);
        // What is left out is no less than is kept back for the network.
        expect(rested === 0 || piece.length === (KEPT_BACK + 1) * FRAME_SAMPLES).toBe(true);
        at += piece.length;
      }
      expect(at).toBeLessThanOrEqual(sound.length);
    }),
    { numRuns: 40 },
  );
});

it('where all is wanted all comes, in whole frames', () => {
  fc.assert(
    fc.property(levels, lengths, (room, length) => {
      const sound = roomOf(room);
      const pieces = soundIn(handedOf(sound, length, true));
      const got = Float32Array.from(pieces.flatMap((one) => [...one.sound]));
      expect(pieces.every(({ rested }) => rested === 0)).toBe(true);
      expect(sound.length - got.length).toBeLessThan(KEPT_BACK * FRAME_SAMPLES);
      expect(isSame(got, sound.subarray(0, got.length))).toBe(true);
    }),
    { numRuns: 20 },
  );
});

it('of a room at rest its level alone is told, twice a second', () => {
  const sound = roomOf([-60, -60, -60, -60, -60, -60]);
  const handed = handedOf(sound, 128);
  const [first, ...later] = handed.filter(({ kind }) => kind === 'rest');
  const heard = soundIn(handed).reduce((sum, one) => sum + one.sound.length, 0);
  expect(heard).toBeLessThan(1.5 * 16_000);
  const half = KEPT_BACK * FRAME_SAMPLES;
  expect(first?.rested).toBe(half);
  expect(later.map(({ rested }) => rested)).toEqual(later.map((_, at) => (at + 2) * half));
  expect(later.length).toBe(Math.floor((sound.length - heard) / half) - 1);
  expect(first).toMatchObject({ level: levelOf(sound.subarray(heard, heard + half)) });
});

it('somebody who speaks is handed on whole, however softly', () => {
  const sound = roomOf([-60, -60, -60, -60]);
  const [kept, held] = [Infinity, 94 * 512].map((openFrom) =>
    soundIn(handedOf(sound, 512, false, openFrom)),
  );
  const more = held?.slice(kept?.length) ?? [];
  // What was kept back before it, then frame by frame.
  expect(more.map((one) => one.sound.length / 512)).toEqual([
    KEPT_BACK + 1,
    ...Array<number>(30).fill(1),
  ]);
  expect(more.slice(1).every(({ rested }) => rested === 0)).toBe(true);
});
