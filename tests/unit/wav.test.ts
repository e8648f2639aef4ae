import { describe, expect, test } from 'vitest';
import { readWav, WavError } from '../../assistant/cli/wav.ts';

interface Shape {
  readonly kind: number;
  readonly bits: number;
  readonly channels: number;
  readonly rate: number;
  readonly extensible?: boolean;
}

/** A WAVE file of `seconds` of a tone of `hertz` at half scale; the second channel is silent. */
function tone({ kind, bits, channels, rate, extensible }: Shape, hertz: number, seconds = 0.25) {
  const count = Math.round(seconds * rate);
  const width = bits / 8;
  const header = extensible === true ? 40 : 16;
  const size = count * channels * width;
  const bytes = new Uint8Array(12 + 8 + header + 8 + size);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string) => bytes.set(new TextEncoder().encode(value), at);
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, header, true);
  view.setUint16(20, extensible === true ? 0xfffe : kind, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, rate * channels * width, true);
  view.setUint16(32, channels * width, true);
  view.setUint16(34, bits, true);
  if (extensible === true) view.setUint16(44, kind, true);
  text(20 + header, 'data');
  view.setUint32(24 + header, size, true);
  for (let index = 0; index < count; index++) {
    const value = 0.5 * Math.sin((2 * Math.PI * hertz * index) / rate);
    const at = 28 + header + index * channels * width;
    if (kind === 3 && bits === 32) view.setFloat32(at, value, true);
    else if (kind === 3) view.setFloat64(at, value, true);
    else if (bits === 8) view.setUint8(at, Math.round(value * 127) + 128);
    else if (bits === 16) view.setInt16(at, Math.round(value * 32_767), true);
    else if (bits === 24) {
      const whole = Math.round(value * 8_388_607);
      view.setUint16(at, whole & 0xffff, true);
      view.setInt8(at + 2, whole >> 16);
    } else view.setInt32(at, Math.round(value * 2_147_483_647), true);
    if (channels === 2 && bits === 8) view.setUint8(at + 1, 128);
  }
  return bytes;
}

/** Largest difference from the tone it should be, away from the ends. */
function error(pcm: Float32Array, hertz: number, peak: number): number {
  return pcm.subarray(400, -400).reduce((worst, value, index) => {
    const wanted = peak * Math.sin((2 * Math.PI * hertz * (index + 400)) / 16_000);
    return Math.max(worst, Math.abs(value - wanted));
  }, 0);
}

const plain: Shape = { kind: 1, bits: 16, channels: 1, rate: 16_000 };

describe('readWav', () => {
  test.each<[string, Shape, number, number]>([
    ['16-bit mono', plain, 0.5, 1e-4],
    ['8-bit', { ...plain, bits: 8 }, 0.5, 0.01],
    ['24-bit', { ...plain, bits: 24 }, 0.5, 1e-6],
    ['32-bit', { ...plain, bits: 32 }, 0.5, 1e-6],
    ['32-bit float', { ...plain, kind: 3, bits: 32 }, 0.5, 1e-6],
    ['64-bit float', { ...plain, kind: 3, bits: 64 }, 0.5, 1e-6],
    ['extensible 24-bit', { ...plain, bits: 24, extensible: true }, 0.5, 1e-6],
    ['stereo, averaged', { ...plain, channels: 2 }, 0.25, 1e-4],
    ['8-bit stereo', { ...plain, bits: 8, channels: 2 }, 0.25, 0.01],
    ['44.1 kHz', { ...plain, rate: 44_100 }, 0.5, 2e-3],
    ['48 kHz', { ...plain, rate: 48_000 }, 0.5, 2e-3],
    ['8 kHz', { ...plain, rate: 8_000 }, 0.5, 2e-3],
  ])('%s', (_, shape, peak, tolerance) => {
    const pcm = readWav(tone(shape, 440));
    expect(Math.abs(pcm.length - 4_000)).toBeLessThanOrEqual(1);
    expect(error(pcm, 440, peak)).toBeLessThan(tolerance);
  });

  test('what 16 kHz cannot hold is filtered out, not folded down', () => {
    const pcm = readWav(tone({ ...plain, rate: 48_000 }, 11_000));
    const middle = pcm.subarray(400, -400);
    expect(Math.max(...middle.map(Math.abs))).toBeLessThan(0.5 / 1_000);
  });

  test('a data size that is too large, as streaming writers leave it, is cut at the end', () => {
    const bytes = tone(plain, 440);
    new DataView(bytes.buffer).setUint32(40, 0xffff_ffff, true);
    expect(readWav(bytes).length).toBe(4_000);
  });

  test.each<[string, Uint8Array, RegExp]>([
    ['not a WAVE file', new Uint8Array(100), /^not a RIFF WAVE file; convert it/],
    ['A-law', tone({ ...plain, kind: 6, bits: 8 }, 440), /^its sound is of format 6 with 8 bits/],
    ['4 kHz', tone({ ...plain, rate: 4_000 }, 440), /^its rate is 4000 Hz, outside 8000 to 192000/],
    ['no data', tone(plain, 440).subarray(0, 36), /^no sound data in it/],
  ])('refuses %s', (_, bytes, message) => {
    expect(() => readWav(bytes)).toThrow(WavError);
    expect(() => readWav(bytes)).toThrow(message);
  });
});
