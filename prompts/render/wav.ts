/** Mono 16-bit PCM WAV (RIFF), read and written. */

/** Sound: mono samples in -1..1 and their rate in hertz. */
export interface Wav {
  readonly pcm: Float32Array;
  readonly rate: number;
}

const ascii = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

/**
 * Reads a mono 16-bit PCM WAV file.
 * @throws Error when it is not one, saying what it is instead.
 */
export function decodeWav(bytes: Uint8Array): Wav {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || ascii(bytes, 0, 4) !== 'RIFF' || ascii(bytes, 8, 4) !== 'WAVE') {
    throw new Error('not a RIFF WAVE file');
  }
  let rate = 0;
  for (let at = 12; at + 8 <= bytes.length;) {
    const id = ascii(bytes, at, 4);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id === 'fmt ') {
      const [format, channels] = [view.getUint16(body, true), view.getUint16(body + 2, true)];
      const bits = view.getUint16(body + 14, true);
      rate = view.getUint32(body + 4, true);
      if (format !== 1 || channels !== 1 || bits !== 16) {
        throw new Error(`want mono 16-bit PCM, got format ${format}, ${channels} ch, ${bits} bit`);
      }
    } else if (id === 'data') {
      if (rate === 0) throw new Error('no format before the data');
      // A streaming writer leaves the size too large: take what is there.
      const count = Math.floor(Math.min(size, bytes.length - body) / 2);
      const pcm = Float32Array.from({ length: count }, (_, i) => {
        return view.getInt16(body + 2 * i, true) / 32_768;
      });
      return { pcm, rate };
    }
    at = body + size + (size % 2);
  }
  throw new Error('no data in the WAVE file');
}

/** Writes mono samples in -1..1 (clipped beyond) as a 16-bit PCM WAV file at `rate` hertz. */
export function encodeWav({ pcm, rate }: Wav): Uint8Array {
  const bytes = new Uint8Array(44 + 2 * pcm.length);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string): void => {
    for (let i = 0; i < value.length; i++) bytes[at + i] = value.charCodeAt(i);
  };
  text(0, 'RIFF');
  view.setUint32(4, 36 + 2 * pcm.length, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, 'data');
  view.setUint32(40, 2 * pcm.length, true);
  pcm.forEach((sample, i) => {
    const scaled = Math.round(sample * 32_768);
    view.setInt16(44 + 2 * i, Math.max(-32_768, Math.min(32_767, scaled)), true);
  });
  return bytes;
}
