/** Tensors made of numbers. */
import { FLOAT, INT64, UINT8 } from './parts.ts';
import type { FreshTensor } from './tensors.ts';

/** 32-bit floats; of one number where `dims` is empty. */
export const floats = (values: Iterable<number>, dims: readonly number[]): FreshTensor => ({
  type: FLOAT,
  dims,
  bytes: new Uint8Array(Float32Array.from(values).buffer),
});

/** Whole numbers from 0 to 255; of one number where `dims` is empty. */
export const steps = (values: Iterable<number>, dims: readonly number[]): FreshTensor => ({
  type: UINT8,
  dims,
  bytes: Uint8Array.from(values),
});

/** Whole numbers of eight bytes, one row of them: places, lengths, axes. */
export const places = (...values: readonly number[]): FreshTensor => ({
  type: INT64,
  dims: [values.length],
  bytes: new Uint8Array(BigInt64Array.from(values, BigInt).buffer),
});
