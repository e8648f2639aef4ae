/** How loud the microphone is, frame by frame. */
import { SAMPLE_RATE, type Pcm } from './port.ts';

/** Levels of a stretch of sound, dB below full scale (0 is full scale, -100 the floor). */
export interface Level {
  readonly rmsDbfs: number;
  readonly peakDbfs: number;
  /** True when at least three samples of one frame stand at full scale. */
  readonly clipped: boolean;
  /** How long the stretch is, ms. */
  readonly ms: number;
}

const FLOOR_DBFS = -100;
const FULL_SCALE = 0.999;

const dbfs = (amplitude: number): number =>
  amplitude > 1e-5 ? 20 * Math.log10(amplitude) : FLOOR_DBFS;

/** The level of `frames` together, 16 kHz sound; without any, or any sample in them, it is at the floor. */
export function levelOf(...frames: readonly Pcm[]): Level {
  let samples = 0;
  let sum = 0;
  let peak = 0;
  let clipped = false;
  for (const frame of frames) {
    samples += frame.length;
    let atFullScale = 0;
    for (const sample of frame) {
      const size = Math.abs(sample);
      sum += size * size;
      if (size > peak) peak = size;
      if (size >= FULL_SCALE) atFullScale += 1;
    }
    clipped ||= atFullScale >= 3;
  }
  const rms = samples > 0 ? Math.sqrt(sum / samples) : 0;
  return {
    rmsDbfs: dbfs(rms),
    peakDbfs: dbfs(peak),
    clipped,
    ms: (samples * 1000) / SAMPLE_RATE,
  };
}

/** What a run of levels says about the microphone; made for one stretch after another. */
export class LevelWatch {
  #silentMs = 0;
  #clippedMs = 0;
  #clearMs = 0;
  #clipping = false;

  /**
   * Takes the next level.
   * Silent: digital silence for 3 s (a room is never that quiet). Clipped: 0.3 s of clipped
   * frames without 5 s free of them between.
   */
  push(level: Level): { readonly silent: boolean; readonly clipped: boolean } {
    this.#silentMs = level.peakDbfs <= FLOOR_DBFS ? this.#silentMs + level.ms : 0;
    this.#clearMs = level.clipped ? 0 : this.#clearMs + level.ms;
    if (level.clipped) this.#clippedMs += level.ms;
    if (this.#clearMs >= 5_000) this.#clippedMs = 0;
    this.#clipping = this.#clippedMs >= 300;
    return { silent: this.#silentMs >= 3_000, clipped: this.#clipping };
  }
}
