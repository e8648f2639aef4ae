import { computed, judgement, practice } from './number.ts';
import type { Quantity, Span } from './number.ts';

const middle = (min: number, max: number): number => Math.round(((min + max) / 2) * 100) / 100;

const textbook = (unit: 'MPa' | 'MPa.m^0.5', min: number, max: number, note = ''): Span => ({
  min,
  target: middle(min, max),
  max,
  unit,
  ...practice,
  note: `textbook range${note === '' ? '' : `, ${note}`}; the aim is its middle`,
  apart: { target: computed },
});

/** Flexural strength, MPa. */
export const strength = (min: number, max: number, note?: string): Span =>
  textbook('MPa', min, max, note);
/** Fracture toughness, MPa times the root of a metre. */
export const toughness = (min: number, max: number, note?: string): Span =>
  textbook('MPa.m^0.5', min, max, note);

/** Least thickness and what is aimed at, mm; common practice. */
export const thick = (min: number, target: number, note: string): Span => ({
  min,
  target,
  max: null,
  unit: 'mm',
  ...practice,
  note,
});

/** Loss of light, 1/mm: judgement inside what Pacheco 2019 brackets. */
export const loss = (value: number): Quantity => ({
  value,
  unit: '1/mm',
  ...judgement,
  note: 'lies near the 1.20 to 2.02 worked back from 0.5 mm plates (Pacheco 2019)',
});

/** Least connector area, mm2. */
export const area = (value: number, note: string): Quantity => ({
  value,
  unit: 'mm2',
  ...practice,
  note,
});

/** Seconds of conditioning from common practice. */
export const seconds = (min: number, target: number, max: number, note: string): Span => ({
  min,
  target,
  max,
  unit: 's',
  ...practice,
  note,
});

/** Pressure of air abrasion, bar. */
export const pressure = (min: number | null, target: number, max: number, note: string): Span => ({
  min,
  target,
  max,
  unit: 'bar',
  ...practice,
  note,
});

/** Alumina particle size, micrometres: one size unless a window is given. */
export const particle = (min: number, target: number, max: number, note: string): Span => ({
  min,
  target,
  max,
  unit: 'um',
  ...practice,
  note,
});

/** From nozzle to surface. */
export const NOZZLE: Quantity = { value: 10, unit: 'mm', ...practice, note: 'nozzle to surface' };

/** Hydrofluoric acid, per cent by weight. */
export const acid = (note: string): Quantity => ({ value: 5, unit: 'percent', ...practice, note });
