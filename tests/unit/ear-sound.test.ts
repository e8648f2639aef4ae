import { describe, expect, it } from 'vitest';
import { FAINT_SEGMENTS, faintInARow, speechLevel } from '../../assistant/ear/faint.ts';
import { levelOf, LevelWatch } from '../../assistant/ear/level.ts';
import { Resampler } from '../../assistant/ear/resample.ts';
import { StreamClock } from '../../assistant/ear/stream-clock.ts';

const sine = (hertz: number, rate: number, samples: number, size = 1): Float32Array =>
  Float32Array.from(
    { length: samples },
    (_, i) => size * Math.sin((2 * Math.PI * hertz * i) / rate),
  );

describe('level', () => {
  it('of a full-scale sine is -3.01 dB, of half of it 6.02 less', () => {
    const full = levelOf(sine(500, 16_000, 512));
    expect(full.rmsDbfs).toBeCloseTo(-3.01, 2);
    expect(full.peakDbfs).toBeCloseTo(0, 2);
    const half = levelOf(sine(500, 16_000, 512, 0.5));
    expect(half.rmsDbfs).toBeCloseTo(-9.03, 2);
    expect(half.clipped).toBe(false);
  });

  it('of silence is the floor', () => {
    expect(levelOf(new Float32Array(512))).toEqual({
      ms: 32,
      rmsDbfs: -100,
      peakDbfs: -100,
      clipped: false,
    });
    expect(levelOf(new Float32Array(0)).rmsDbfs).toBe(-100);
  });

  it('is clipped from three samples at full scale on', () => {
    const frame = new Float32Array(512);
    frame.set([1, -1]);
    expect(levelOf(frame).clipped).toBe(false);
    frame[2] = 0.9995;
    expect(levelOf(frame).clipped).toBe(true);
  });
});

describe('the level of speech', () => {
  it('leaves the padding out', () => {
    const pcm = new Float32Array(16_000);
    pcm.set(sine(500, 16_000, 8_000, 0.01), 4_000);
    const [startMs, endMs] = [7_000, 8_000];
    const segment = { kind: 'segment', pcm, startMs, endMs, cut: false } as const;
    const speech = { speechStartMs: 7_250, speechEndMs: 7_750 };
    expect(speechLevel({ ...segment, ...speech })).toBeCloseTo(-43.01, 1);
  });

  it.each([
    ['three in a row are faint', [-60, -51, -55], true],
    ['two are not', [-60, -51], false],
    ['nor with a loud enough one among them', [-60, -60, -49, -60], false],
    ['a loud enough one ends it', [-60, -60, -60, -60, -50], false],
  ])('%s', (_, levels, isFaint) => {
    expect(levels.reduce(faintInARow, 0) >= FAINT_SEGMENTS).toBe(isFaint);
  });
});

describe('watch over the level', () => {
  const clear = levelOf(sine(500, 16_000, 512, 0.1));
  const loud = levelOf(sine(500, 16_000, 512, 3).map((x) => Math.max(-1, Math.min(1, x))));
  const none = levelOf(new Float32Array(512));
  const run = (watch: LevelWatch, level: typeof clear, frames: number) => {
    let last = { silent: false, clipped: false };
    for (let i = 0; i < frames; i += 1) last = watch.push(level);
    return last;
  };

  it('tells silence after three seconds, until there is a sound', () => {
    const watch = new LevelWatch();
    expect(run(watch, none, 93).silent).toBe(false);
    expect(run(watch, none, 1).silent).toBe(true);
    expect(run(watch, clear, 1).silent).toBe(false);
  });

  it('tells clipping after 0.3 s of it, until 5 s are free of it', () => {
    const watch = new LevelWatch();
    expect(run(watch, loud, 9).clipped).toBe(false);
    expect(run(watch, loud, 1).clipped).toBe(true);
    expect(run(watch, clear, 156).clipped).toBe(true);
    expect(run(watch, clear, 1).clipped).toBe(false);
  });

  it('forgives a clipped frame now and then', () => {
    const watch = new LevelWatch();
    for (let i = 0; i < 50; i += 1) {
      expect(run(watch, loud, 1).clipped).toBe(false);
      run(watch, clear, 160);
    }
  });
});

describe('resampling to 16 kHz', () => {
  const through = (sound: Float32Array, rate: number, piece: number): Float32Array => {
    const resampler = new Resampler(rate);
    const parts: number[] = [];
    for (let at = 0; at < sound.length; at += piece)
      parts.push(...resampler.push(sound.subarray(at, at + piece)));
    parts.push(...resampler.end());
    return Float32Array.from(parts);
  };

  it.each([48_000, 44_100, 8_000, 32_000])('keeps a tone from %i Hz as it is', (rate) => {
    const made = through(sine(1_000, rate, rate), rate, 512);
    const wanted = sine(1_000, 16_000, 16_000);
    expect(Math.abs(made.length - 16_000)).toBeLessThan(40);
    // The ends, where the tone breaks off, ring.
    let worst = 0;
    for (let i = 200; i < 15_600; i += 1)
      worst = Math.max(worst, Math.abs((made[i] ?? 0) - (wanted[i] ?? 0)));
    expect(worst).toBeLessThan(0.01);
  });

  it('lets a whine of 9 to 20 kHz through by no more than -50 dB', () => {
    for (const hertz of [9_000, 12_000, 20_000]) {
      const made = through(sine(hertz, 48_000, 48_000), 48_000, 128);
      expect(levelOf(made.subarray(400, -400)).peakDbfs).toBeLessThan(-50);
    }
  });

  it('gives the same however the sound is parted', () => {
    const sound = sine(700, 44_100, 20_000);
    const fine = (piece: number): number[] =>
      Array.from(through(sound, 44_100, piece), (x) => Math.round(x * 1e5) + 0);
    expect(fine(128)).toEqual(fine(4_096));
  });

  it('refuses rates no device has', () => {
    expect(() => new Resampler(0)).toThrow('sound at 0 hertz');
    expect(() => new Resampler(Number.NaN)).toThrow(RangeError);
  });
});

describe('stream and page clock', () => {
  it('the earliest arrival counts', () => {
    const clock = new StreamClock();
    expect(clock.originMs).toBe(Number.NaN);
    clock.arrived(32, 5_040);
    expect(clock.originMs).toBe(5_008);
    clock.arrived(64, 5_070);
    expect(clock.originMs).toBe(5_006);
    clock.arrived(96, 5_900);
    expect(clock.originMs).toBe(5_006);
  });

  it('a stream that stood still, or runs slow, is followed within 20 s', () => {
    const clock = new StreamClock();
    for (let ms = 32; ms <= 3_200; ms += 32) clock.arrived(ms, 1_000 + ms);
    for (let ms = 3_232; ms <= 30_000; ms += 32) clock.arrived(ms, 4_000 + ms);
    expect(clock.originMs).toBe(4_000);
  });
});
