/** How loud the microphone is, frame by frame. */
import type { Pcm } from './port.ts';

/** Levels of one frame, dB below full scale (0 is full scale, -100 the floor). */
export interface Level {
  readonly rmsDbfs: number;
  readonly peakDbfs: number;
  /** True when at least three samples stand at full scale. */
  readonly clipped: boolean;
}

const FLOOR_DBFS = -100;
const FULL_SCALE = 0.999;

const dbfs = (amplitude: number): number =>
  amplitude > 1e-5 ? 20 * Math.log10(amplitude) : FLOOR_DBFS;

/** The level of `frame`; an empty frame is at the floor. */
export function levelOf(frame: Pcm): Level {
  let sum = 0;
  let peak = 0;
  let atFullScale = 0;
  for (const sample of frame) {
    const size = Math.abs(sample);
    sum += size * size;
    if (size > peak) peak = size;
    if (size >= FULL_SCALE) atFullScale += 1;
  }
  const rms = frame.length > 0 ? Math.sqrt(sum / frame.length) : 0;
  return { rmsDbfs: dbfs(rms), peakDbfs: dbfs(peak), clipped: atFullScale >= 3 };
}

/** What a run of levels says about the microphone; made for one frame after another. */
export class LevelWatch {
  #silentMs = 0;
  #clippedMs = 0;
  #clearMs = 0;
  #clipping = false;

  /**
   * Takes the next level, of a frame `frameMs` long.
   * Silent: digital silence for 3 s (a room is never that quiet). Clipped: 0.3 s of clipped
   * frames without 5 s free of them between.
   */
  push(level: Level, frameMs: number): { readonly silent: boolean; readonly clipped: boolean } {
    this.#silentMs = level.peakDbfs <= FLOOR_DBFS ? this.#silentMs + frameMs : 0;
    this.#clearMs = level.clipped ? 0 : this.#clearMs + frameMs;
    if (level.clipped) this.#clippedMs += frameMs;
    if (this.#clearMs >= 5_000) this.#clippedMs = 0;
    this.#clipping = this.#clippedMs >= 300;
    return { silent: this.#silentMs >= 3_000, clipped: this.#clipping };
  }
}
