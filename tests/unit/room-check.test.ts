import { expect, test } from 'vitest';
import type { Hearing } from '../../assistant/ear/listener.ts';
import { CHECK_PHRASES, PHRASE_MS, QUIET_MS, RoomCheck } from '../../assistant/ear/room-check.ts';

const FRAME_MS = 32;

function hearing(phrase: string | null, startMs: number, endMs: number): Hearing {
  const accepted = phrase !== null;
  return {
    kind: accepted ? 'command' : 'ignored',
    phrase,
    score: accepted ? 0.9 : null,
    startMs,
    endMs,
    decodeMs: 100,
    accepted,
    sure: true,
    why: accepted ? null : 'nothing in the grammar',
  };
}

/** Frames of one level from `fromMs` to `toMs`. */
function sound(check: RoomCheck, fromMs: number, toMs: number, rmsDbfs: number, clipped = false) {
  for (let at = fromMs; at < toMs; at += FRAME_MS)
    check.level({ rmsDbfs, clipped, ms: FRAME_MS }, at);
}

/** A whole check: a room at `noise` dB, speech at `speech` dB, and what was heard of each phrase. */
function checked(
  noise: number,
  speech: number,
  heard: readonly (string | null)[],
  clipped = false,
) {
  const check = new RoomCheck(0);
  sound(check, 0, QUIET_MS, noise);
  let at = QUIET_MS;
  check.at(at);
  for (const phrase of heard) {
    sound(check, at, at + 1_000, speech, clipped);
    check.heard(hearing(phrase, at, at + 1_000), at + 1_500);
    at += 1_500;
  }
  const stage = check.at(at);
  if (stage.stage !== 'done') throw new Error(`still ${stage.stage}`);
  return stage.report;
}

test('a quiet room with everything heard is good, and needs nothing', () => {
  const report = checked(-60, -30, CHECK_PHRASES);
  expect(report).toMatchObject({ verdict: 'good', remedies: [], noiseDbfs: -60 });
  expect(report.speechDbfs).toBeCloseTo(-30, 1);
});

test('a room at rest comes in longer pieces, and a bang of a second does not outweigh it', () => {
  const check = new RoomCheck(0);
  sound(check, 0, 1_000, -20);
  for (let at = 1_512; at <= QUIET_MS; at += 512)
    check.level({ rmsDbfs: -60, clipped: false, ms: 512 }, at);
  let at = QUIET_MS;
  check.at(at);
  for (const phrase of CHECK_PHRASES) {
    // Half a second of the pause before it counts as long as it lasts, too.
    check.level({ rmsDbfs: -60, clipped: false, ms: 512 }, at + 500);
    sound(check, at + 500, at + 1_000, -30);
    check.heard(hearing(phrase, at, at + 1_000), at + 1_000);
    at += 1_500;
  }
  const stage = check.at(at);
  if (stage.stage !== 'done') throw new Error(`still ${stage.stage}`);
  expect(stage.report.noiseDbfs).toBe(-60);
  expect(stage.report.speechDbfs).toBeCloseTo(-33, 0);
});

test('the noise is taken out of the speech level: 3 dB above a noise is a speech as loud as it', () => {
  expect(checked(-40, -36.99, CHECK_PHRASES).speechDbfs).toBeCloseTo(-40, 1);
});

test('speech that hardly stands above the room is fair or poor, and says what to do', () => {
  expect(checked(-40, -29, CHECK_PHRASES)).toMatchObject({ verdict: 'fair' });
  const poor = checked(-40, -35, CHECK_PHRASES);
  expect(poor.verdict).toBe('poor');
  expect(poor.remedies[0]).toContain('nearer to the mouth');
});

test('loud enough but misheard: one phrase missed is fair, two are poor', () => {
  const one = checked(-60, -30, ['cleaner on', null, 'mixing now']);
  expect(one).toMatchObject({ verdict: 'fair', outcomes: ['right', 'nothing', 'right'] });
  expect(one.remedies[0]).toContain('in one breath');
  const two = checked(-60, -30, ['cleaner on', 'silane on', null]);
  expect(two).toMatchObject({ verdict: 'poor', outcomes: ['right', 'other', 'nothing'] });
});

test('a clipped microphone is never good', () => {
  const report = checked(-60, -3, CHECK_PHRASES, true);
  expect(report.verdict).toBe('fair');
  expect(report.remedies).toEqual(['The microphone is too loud: turn its level down.']);
});

test('nobody speaks: the check ends by itself within half a minute, and says so', () => {
  const check = new RoomCheck(0);
  sound(check, 0, QUIET_MS, -50);
  const stages = [QUIET_MS, 1, 2, 3].map((n, i) =>
    check.at(i === 0 ? n : QUIET_MS + n * PHRASE_MS),
  );
  expect(stages.map(({ stage }) => stage)).toEqual(['reading', 'reading', 'reading', 'done']);
  expect(QUIET_MS + 3 * PHRASE_MS).toBeLessThanOrEqual(30_000);
  const last = stages.at(-1);
  if (last?.stage !== 'done') throw new Error('not done');
  expect(last.report).toMatchObject({ verdict: 'poor', speechDbfs: null });
  expect(last.report.remedies[0]).toContain('mute switch');
});

test('speech in the quiet part begins the quiet anew', () => {
  const check = new RoomCheck(0);
  check.speaks(3_000);
  expect(check.at(QUIET_MS)).toEqual({ stage: 'quiet', untilMs: 10_000 });
});

test('the bare call sign is half a phrase, not a wrong one', () => {
  const check = new RoomCheck(0);
  sound(check, 0, QUIET_MS, -60);
  check.at(QUIET_MS);
  check.heard({ ...hearing(null, 5_100, 5_600), kind: 'attention' }, 6_000);
  expect(check.at(6_000)).toMatchObject({ stage: 'reading', phrase: 0 });
});
