import { z } from 'zod';
import { Mark } from '../contract/index.ts';
import { SOURCES } from './sources.ts';
import type { SourceKey } from './sources.ts';

/** Units of the tables. */
export const UNITS = [
  's',
  'mm',
  'mm2',
  'um',
  'bar',
  'percent',
  'deg',
  'ratio',
  'MPa',
  'MPa.m^0.5',
  'J/cm2',
  'mW/cm2',
  '1/mm',
  'C',
  'pH',
  'class',
  'N',
  'Ncm',
  'd',
  'year',
  'count',
] as const;

const isSource = (key: string): key is SourceKey => Object.hasOwn(SOURCES, key);

const Origin = z.strictObject({
  mark: Mark,
  source: z.custom<SourceKey>((key) => typeof key === 'string' && isSource(key)),
});
/** Who says so, and how surely. */
export type Origin = z.infer<typeof Origin>;

const common = {
  unit: z.enum(UNITS),
  ...Origin.shape,
  note: z.string(),
};

/** One number of the trade. */
export const Quantity = z.strictObject({ value: z.number(), ...common });
export type Quantity = z.infer<typeof Quantity>;

/**
 * A window: least, aim, most. Null where that end does no harm. `apart` names the ends whose
 * origin differs from the window's own mark.
 */
export const Span = z.strictObject({
  min: z.number().nullable(),
  target: z.number(),
  max: z.number().nullable(),
  ...common,
  apart: z
    .strictObject({
      min: Origin.optional(),
      target: Origin.optional(),
      max: Origin.optional(),
    })
    .optional(),
});
export type Span = z.infer<typeof Span>;

/** Either shape a number of the tables may take. */
export const TradeNumber = z.union([Quantity, Span]);
export type TradeNumber = Quantity | Span;

/** Common practice: no source to name. */
export const practice = { mark: 'common-practice', source: 'practice' } as const satisfies Origin;
/** Judgement: weaker than common practice. */
export const judgement = { mark: 'judgement', source: 'judgement' } as const satisfies Origin;
/** Read in the paper named. */
export const published = (source: SourceKey) =>
  ({ mark: 'published', source }) as const satisfies Origin;
/** Remembered from the work named, not read again. */
export const memory = (source: SourceKey) => ({ mark: 'memory', source }) as const satisfies Origin;
/** Worked out from the inputs the note names. */
export const computed = { mark: 'computed', source: 'computed' } as const satisfies Origin;
