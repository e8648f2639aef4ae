/**
 * Tells the frames in which nobody can be speaking, by their level alone: a room at rest need not be
 * looked at by a network thirty times a second, all day.
 */
import { FRAME_SAMPLES } from './constants.ts';
import { SAMPLE_RATE } from '../port.ts';

/** Above the room's own level by so much somebody may be speaking, as a ratio of powers: 3 dB. */
const RISE = 2;
/** The room's own level is taken to rise by so much a second, dB: what lasts becomes the room. */
const ROOM_RISES = 2;
/** After the last frame that rose above the room it is listened to for so long, seconds. */
const STAYS_OPEN = 1;
/** Below this no microphone's own noise lies: power of full scale 1, -100 dB. */
const LEAST_POWER = 1e-10;

const FRAME_SECONDS = FRAME_SAMPLES / SAMPLE_RATE;
const GROWTH = 10 ** ((ROOM_RISES * FRAME_SECONDS) / 10);

export class QuietGate {
  #room = Infinity;
  #openFor = STAYS_OPEN;

  /**
   * Takes the next frame; whether it may hold speech or lies less than a second after one that may.
   * The first second of sound always may.
   */
  mayHoldSpeech(frame: Float32Array): boolean {
    let power = 0;
    for (const sample of frame) power += sample * sample;
    power /= frame.length;
    // A microphone begins with zeros, and gives zeros while it is muted: they are not the room.
    if (power > 0) this.#room = Math.min(Math.max(power, LEAST_POWER), this.#room * GROWTH);
    if (power > this.#room * RISE) this.#openFor = STAYS_OPEN;
    else if (this.#room < Infinity) this.#openFor -= FRAME_SECONDS;
    return this.#openFor > 0;
  }
}
