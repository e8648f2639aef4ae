/** ONNX messages changed and written anew, part by part. */
import { inside, parts, WIRE } from './parts.ts';

export type Bytes = Uint8Array<ArrayBuffer>;

function asVarint(value: number): Bytes {
  const bytes: number[] = [];
  let rest = value;
  for (; rest >= 128; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128);
  return Uint8Array.of(...bytes, rest);
}

/** One after another. */
export function joined(pieces: readonly Bytes[]): Bytes {
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** A part that is a number, not negative. */
export const ofNumber = (field: number, value: number): Bytes =>
  joined([asVarint(field * 8 + WIRE.number), asVarint(value)]);
/** A part that is bytes. */
export const ofBytes = (field: number, bytes: Bytes): Bytes =>
  joined([asVarint(field * 8 + WIRE.bytes), asVarint(bytes.length), bytes]);

/** A part that is text. */
export const ofText = (field: number, text: string): Bytes =>
  ofBytes(field, Uint8Array.from(new TextEncoder().encode(text)));

/** The text that a message holds as `field`; empty where it holds none. */
export const textIn = (message: Bytes, field: number): string =>
  [...inside(message, field)].map((bytes) => new TextDecoder().decode(bytes)).join('');
/** The message with every part of `field` that holds bytes as `change` has it. */
export const changed = (message: Bytes, field: number, change: (bytes: Bytes) => Bytes): Bytes =>
  joined(
    [...parts(message)].map((part) =>
      part.field === field && part.bytes !== null ? ofBytes(field, change(part.bytes)) : part.whole,
    ),
  );

/** A message without its parts of `field`. */
export const lacking = (message: Bytes, field: number): Bytes =>
  joined([...parts(message)].filter((part) => part.field !== field).map(({ whole }) => whole));
