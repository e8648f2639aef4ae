import { describe, expect, it } from 'vitest';
import { SEGMENTER, type SegmenterOptions } from '../../assistant/ear/vad/constants.ts';
import type { Part } from '../../assistant/ear/vad/own-level.ts';
import { Segmenter, type VadEvent } from '../../assistant/ear/vad/segmenter.ts';

/** Frames of 32 ms whose samples hold their own number; one probability a frame. Pauses left out. */
function run(
  probabilities: readonly number[],
  options: SegmenterOptions = SEGMENTER,
): (VadEvent | string)[] {
  const segmenter = new Segmenter(options);
  const events: (VadEvent | string)[] = [];
  probabilities.forEach((probability, i) => {
    for (const event of segmenter.push(new Float32Array(512).fill(i), probability))
      if (event.kind !== 'pause') events.push(`frame ${i}`, event);
  });
  for (const event of segmenter.flush()) events.push('flush', event);
  return events;
}

const times = (n: number, probability: number): number[] =>
  Array.from({ length: n }, () => probability);
const shape = (events: readonly (VadEvent | string)[]) =>
  events.map((event) => {
    if (typeof event === 'string' || event.kind !== 'segment') return event;
    const { pcm, ...rest } = event;
    return { ...rest, frames: [pcm[0], pcm.at(-1)], samples: pcm.length };
  });

describe('one utterance', () => {
  it('comes with its padding, 192 ms after it ends', () => {
    expect(shape(run([...times(20, 0), ...times(20, 0.9), ...times(20, 0)]))).toEqual([
      'frame 20',
      { kind: 'speechStart', startMs: 640 },
      'frame 45',
      {
        kind: 'segment',
        startMs: 640 - 320,
        endMs: 1_280 + 96,
        speechStartMs: 640,
        speechEndMs: 1_280,
        cut: false,
        frames: [10, 42],
        samples: 33 * 512,
      },
    ]);
  });

  it('shorter than 0.6 s is waited for 288 ms', () => {
    const at = (speech: number): unknown => run([...times(speech, 0.9), ...times(20, 0)])[2];
    expect(at(18)).toBe('frame 26');
    expect(at(19)).toBe('frame 24');
  });

  it('at the very start has what padding there is', () => {
    const [, , , segment] = shape(run([...times(5, 0.9), ...times(15, 0)]));
    expect(segment).toMatchObject({ startMs: 0, speechStartMs: 0, frames: [0, 7] });
  });

  it('that the stream cuts off is given out at the end', () => {
    expect(shape(run([...times(2, 0), ...times(4, 0.8)])).at(-1)).toMatchObject({
      kind: 'segment',
      endMs: 192,
      speechEndMs: 192,
      samples: 6 * 512,
    });
  });

  it('is not parted by a dip shorter than the redemption', () => {
    const events = run([...times(4, 0.9), ...times(8, 0.1), ...times(4, 0.9), ...times(12, 0)]);
    expect(
      events.filter((event) => typeof event !== 'string' && event.kind === 'segment'),
    ).toHaveLength(1);
  });

  it('goes on at a probability that would not have begun it', () => {
    const between = (SEGMENTER.startAt + SEGMENTER.goOnAbove) / 2;
    expect(shape(run([...times(4, 0.9), ...times(10, between), ...times(12, 0)]))).toMatchObject([
      'frame 0',
      { kind: 'speechStart' },
      'frame 22',
      { kind: 'segment', speechEndMs: 14 * 32 },
    ]);
    expect(run(times(30, between))).toEqual([]);
  });
});

it('a pause tells of the segment that comes if nobody goes on, as soon as all of it is there', () => {
  const segmenter = new Segmenter();
  const given = [...times(20, 0.9), ...times(4, 0), 0.9, ...times(20, 0)].flatMap((one, i) =>
    segmenter
      .push(new Float32Array(512).fill(i), one)
      .flatMap((event) => (event.kind === 'speechStart' ? [] : [{ frame: i, event }])),
  );
  expect(given.map(({ frame, event }) => `${frame} ${event.kind}`)).toEqual([
    '22 pause',
    '27 pause',
    '30 segment',
  ]);
  const [, pause, segment] = given;
  expect(pause?.event).toEqual({ kind: 'pause', segment: segment?.event });
});

it('less than 96 ms of speech is a misfire', () => {
  expect(run([...times(10, 0), ...times(2, 0.9), ...times(20, 0)])).toEqual([
    'frame 10',
    { kind: 'speechStart', startMs: 320 },
    'frame 20',
    { kind: 'misfire', startMs: 0, endMs: 672 },
  ]);
});

it('the next utterance keeps its padding even when it follows at once', () => {
  const pause = times(11, 0);
  const events = shape(run([...times(4, 0.9), ...pause, ...times(4, 0.9), ...pause]));
  expect(events[7]).toMatchObject({ speechStartMs: 480, startMs: 160, frames: [5, 21] });
});

describe('speech without an end', () => {
  const options = { ...SEGMENTER, maxMs: 1_600 };

  it('is cut at the quietest frame of its second half, and loses nothing', () => {
    const probabilities = times(80, 0.9);
    probabilities[38] = 0.6;
    const segments = run(probabilities, options).flatMap((event) =>
      typeof event !== 'string' && event.kind === 'segment' ? [event] : [],
    );
    expect(segments.map(({ startMs, endMs, cut }) => ({ startMs, endMs, cut }))).toEqual([
      { startMs: 0, endMs: 39 * 32, cut: true },
      { startMs: 39 * 32, endMs: 80 * 32, cut: false },
    ]);
    const frames = segments.flatMap(({ pcm }) => Array.from(pcm).filter((_, i) => i % 512 === 0));
    expect(frames).toEqual(Array.from({ length: 80 }, (_, i) => i));
  });
});

describe('over one of our calls', () => {
  const over = (parts: readonly (readonly [frames: number, probability: number, part: Part])[]) => {
    const segmenter = new Segmenter();
    let frame = 0;
    const events = parts.flatMap(([frames, probability, part]) =>
      times(frames, probability).flatMap((one, i) =>
        segmenter.push(
          new Float32Array(512).fill(frame++),
          one,
          part === 'onset' && i > 0 ? 'unknown' : part,
        ),
      ),
    );
    return events.filter(({ kind }) => kind !== 'pause');
  };

  it('a segment begins where the person does, and ends though the call goes on', () => {
    const events = over([
      [20, 0, 'unknown'],
      [30, 0.9, 'unknown'],
      [25, 0.9, 'onset'],
      [40, 0.9, 'call'],
    ]);
    expect(shape(events).slice(0, 2)).toEqual([
      { kind: 'speechStart', startMs: 640 },
      {
        kind: 'segment',
        startMs: 1_600 - 320,
        endMs: 2_400 + 96,
        speechStartMs: 1_600,
        speechEndMs: 2_400,
        cut: false,
        frames: [40, 77],
        samples: 38 * 512,
      },
    ]);
  });

  it('a bang in it is a misfire', () => {
    const events = over([
      [30, 0.9, 'unknown'],
      [2, 0.9, 'onset'],
      [20, 0.9, 'call'],
    ]);
    expect(events[1]).toMatchObject({ kind: 'misfire' });
  });
});
