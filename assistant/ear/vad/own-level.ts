/**
 * Tells a person who speaks over one of our calls from the call itself, which comes back out of the
 * loudspeaker: by their levels, since whoever wants to be heard is louder at the microphone than what
 * is left of the call. Else the call would hold up the end of what was said, and hide its beginning.
 */
import { SAMPLE_RATE, type Pcm } from '../port.ts';
import { FRAME_SAMPLES } from './constants.ts';

const FRAME_SECONDS = FRAME_SAMPLES / SAMPLE_RATE;
const ratio = (decibels: number): number => 10 ** (decibels / 10);

/** So much above the loudest of the call it is a person who speaks. */
const PERSON_ABOVE = ratio(8);
/** Up to so much above the loudest of the call it may be the call that goes on. */
const CALL_ABOVE = ratio(3);
/** What is less than this below the loudest of the person is never taken for the call. */
const PERSON_BELOW = ratio(12);
/**
 * The loudest of the calls is forgotten by 4 dB a second of call: no syllable is that far from the
 * next, and whoever spoke before the level was known is not taken for a loud call for long.
 */
const DECAY = ratio(-4 * FRAME_SECONDS);
/** Frames of calls that must have been heard before their level is known. */
const KNOWN_AFTER = 8;
/** A person's first frames rise; they must not count as the call's. */
const RISE_FRAMES = 3;

/** What a frame is, as far as its level tells. */
export type Part =
  /** The first of a person after the call alone. */
  | 'onset'
  /** The call, after a person had spoken: not speech that goes on, but soft speech may be lost in it. */
  | 'call'
  /** Its level says nothing. */
  | 'unknown';

function powerOf(frame: Pcm): number {
  let sum = 0;
  for (const sample of frame) sum += sample * sample;
  return sum / frame.length;
}

export class OwnLevel {
  /** Power of the loudest of the calls, as far as it is known. */
  #loudestCall = 0;
  #seen = 0;
  #rising: number[] = [];
  /** Power of the loudest of the person who speaks; null while it may be the call alone. */
  #loudestPerson: number | null = null;

  /**
   * Takes the next frame. `duringCall`: a call sounds, or its echo may; `speaking`: a segment is open
   * before it; `isSpeech`: the network holds it for speech. Only that is told apart and learnt from: in
   * suction louder than the call it is not the call that keeps a segment open.
   */
  take(frame: Pcm, duringCall: boolean, speaking: boolean, isSpeech: boolean): Part {
    const power = powerOf(frame);
    if (!speaking) this.#loudestPerson = duringCall ? null : 0;
    if (this.#loudestPerson !== null) {
      this.#loudestPerson = Math.max(this.#loudestPerson, power);
      const most = Math.min(this.#loudestCall * CALL_ABOVE, this.#loudestPerson / PERSON_BELOW);
      return duringCall && power < most ? 'call' : 'unknown';
    }
    if (!duringCall || !isSpeech) return 'unknown';
    if (this.#seen >= KNOWN_AFTER && power > this.#loudestCall * PERSON_ABOVE) {
      this.#rising = [];
      if (!speaking) return 'unknown';
      this.#loudestPerson = power;
      return 'onset';
    }
    this.#rising.push(power);
    if (this.#rising.length > RISE_FRAMES) {
      this.#seen += 1;
      this.#loudestCall = Math.max(this.#loudestCall * DECAY, this.#rising.shift() ?? 0);
    }
    return 'unknown';
  }
}
