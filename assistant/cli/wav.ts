/** Sound files as the ear wants them. */
import { type Pcm, SAMPLE_RATE } from '../ear/port.ts';
import { Resampler } from '../ear/resample.ts';

/** A sound file cannot be used; the message says why and what to do. */
export class WavError extends Error {
  override readonly name = 'WavError';
}

const FIX = 'convert it: ffmpeg -i IN -ac 1 -ar 16000 -c:a pcm_s16le OUT.wav';
const PCM = 1;
const FLOAT = 3;
/** The format is the first two bytes of the chunk's last 16. */
const EXTENSIBLE = 0xfffe;

interface Format {
  readonly kind: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}

/**
 * Reads a RIFF WAVE file (8-, 16-, 24- or 32-bit PCM, or 32- or 64-bit float; any number of
 * channels; 8 to 192 kHz) as mono sound at 16 kHz: channels are averaged, other rates resampled.
 * @throws WavError when it is none of these.
 */
export function readWav(bytes: Uint8Array): Pcm {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const id = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || id(0) !== 'RIFF' || id(8) !== 'WAVE') {
    throw new WavError(`not a RIFF WAVE file; ${FIX}`);
  }
  let format: Format | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    // A streaming writer leaves sizes too large: the end of the file counts.
    const size = Math.min(view.getUint32(at + 4, true), bytes.length - at - 8);
    const body = new DataView(bytes.buffer, bytes.byteOffset + at + 8, size);
    if (id(at) === 'fmt ') format = readFormat(body);
    else if (id(at) === 'data') {
      if (format === null) throw new WavError(`its data come before their format; ${FIX}`);
      return atEarRate(mono(body, format), format.rate);
    }
    at += 8 + size + (size % 2);
  }
  throw new WavError(`no sound data in it; ${FIX}`);
}

function readFormat(body: DataView): Format {
  if (body.byteLength < 16) throw new WavError(`its format is cut off; ${FIX}`);
  const tag = body.getUint16(0, true);
  const kind = tag === EXTENSIBLE && body.byteLength >= 26 ? body.getUint16(24, true) : tag;
  const channels = body.getUint16(2, true);
  const rate = body.getUint32(4, true);
  const bits = body.getUint16(14, true);
  const known = kind === PCM ? [8, 16, 24, 32] : kind === FLOAT ? [32, 64] : [];
  if (!known.includes(bits)) {
    throw new WavError(
      `its sound is of format ${kind} with ${bits} bits, not PCM or float; ${FIX}`,
    );
  }
  if (channels === 0) throw new WavError(`it has no channel; ${FIX}`);
  if (rate < 8_000 || rate > 192_000) {
    throw new WavError(`its rate is ${rate} Hz, outside 8000 to 192000; ${FIX}`);
  }
  return { kind, channels, rate, bits };
}

function mono(body: DataView, { kind, channels, bits }: Format): Pcm {
  const width = bits / 8;
  const frame = width * channels;
  const pcm = new Float32Array(Math.floor(body.byteLength / frame));
  for (let index = 0; index < pcm.length; index++) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel++) {
      sum += sample(body, index * frame + channel * width, kind, bits);
    }
    pcm[index] = sum / channels;
  }
  return pcm;
}

/** One sample, -1..1. Only 8-bit PCM is unsigned. */
function sample(body: DataView, at: number, kind: number, bits: number): number {
  if (kind === FLOAT) {
    const value = bits === 32 ? body.getFloat32(at, true) : body.getFloat64(at, true);
    return Number.isFinite(value) ? value : 0;
  }
  if (bits === 8) return (body.getUint8(at) - 128) / 128;
  if (bits === 16) return body.getInt16(at, true) / 2 ** 15;
  if (bits === 24) return (body.getUint16(at, true) + body.getInt8(at + 2) * 2 ** 16) / 2 ** 23;
  return body.getInt32(at, true) / 2 ** 31;
}

function atEarRate(pcm: Pcm, rate: number): Pcm {
  if (rate === SAMPLE_RATE) return pcm;
  const resampler = new Resampler(rate);
  const [most, rest] = [resampler.push(pcm), resampler.end()];
  const whole = new Float32Array(most.length + rest.length);
  whole.set(most);
  whole.set(rest, most.length);
  return whole;
}
