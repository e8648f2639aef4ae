import { z } from 'zod';
import { CEMENT_CLASSES, MATERIALS, SUBSTRATES, TEETH, UNIT_KINDS } from './terms.ts';

const isoTeeth =
  'two digits of ISO 3950: quadrant 1 to 4, then 1 to 8 (upper right first molar is 16)';

/** A dwell as the instructions for use on the shelf give it, in seconds; outranks the built-in one. */
const IfuTimes = z
  .strictObject({
    minS: z.number().positive().max(3600).optional(),
    targetS: z.number().positive().max(3600).optional(),
    maxS: z.number().positive().max(3600).optional(),
  })
  .describe('Times from the instructions for use, in seconds; outrank the built-in values');

const ShelfItem = z.strictObject({
  label: z.string().trim().min(1).max(60).describe("The practice's own name for it"),
  lot: z.string().trim().min(1).max(20).optional(),
  expires: z.iso.date().optional(),
  ifu: IfuTimes.optional(),
});

export const Cement = ShelfItem.omit({ ifu: true }).extend({
  class: z.enum(CEMENT_CLASSES),
  carriesPhosphate: z
    .boolean()
    .default(false)
    .describe(
      'True when the cement itself holds a phosphate monomer, so that zirconia needs no primer',
    ),
  workingS: z
    .number()
    .positive()
    .max(1200)
    .optional()
    .describe('Working time at 23 degrees C, seconds from mix'),
  settingS: z
    .number()
    .positive()
    .max(3600)
    .optional()
    .describe('Setting time in the mouth, seconds from mix'),
});
export type Cement = z.infer<typeof Cement>;

export const Shelf = z.strictObject({
  abrasion: z
    .strictObject({
      particleUm: z.number().min(25).max(50).describe('Alumina particle size in micrometres'),
      bar: z.number().min(0.5).max(2.5),
      ifu: IfuTimes.optional(),
    })
    .nullable()
    .describe('Chairside air abrasion unit, or null if there is none'),
  cleaner: ShelfItem.nullable().describe('Alkaline zirconia-suspension cleaner, or null'),
  hydrofluoricAcid: ShelfItem.extend({ percent: z.number().min(4).max(10) }).nullable(),
  phosphoricAcid: ShelfItem.nullable(),
  silane: ShelfItem.nullable(),
  phosphatePrimer: ShelfItem.nullable().describe('10-MDP primer, or null'),
  adhesive: ShelfItem.nullable().describe('Universal adhesive for the tooth, or null'),
  cements: z.array(Cement).min(1).max(12),
  light: z
    .strictObject({ mwCm2: z.number().min(400).max(4000).describe('Radiometer reading, mW/cm2') })
    .nullable()
    .describe('Curing light, or null'),
});
export type Shelf = z.infer<typeof Shelf>;

export const UnitFacts = z.strictObject({
  tooth: z.enum(TEETH).describe(isoTeeth),
  kind: z.enum(UNIT_KINDS),
  material: z.enum(MATERIALS),
  translucency: z.enum(['high', 'low']).default('low'),
  thicknessMm: z.number().min(0.3).max(3).describe('Occlusal thickness of the restoration'),
  substrate: z.enum(SUBSTRATES),
  prep: z.strictObject({
    heightMm: z.number().min(0.5).max(12).describe('Occluso-cervical height of the prep'),
    convergenceDeg: z
      .number()
      .min(0)
      .max(60)
      .describe('Total occlusal convergence: both walls together'),
    widthMm: z.number().min(3).max(14).describe('Base width at the margin, faciolingual'),
  }),
  provisionalCement: z
    .enum(['none', 'non-eugenol', 'eugenol'])
    .describe('none: there is no provisional'),
  intaglioFromLab: z.enum(['untreated', 'abraded', 'etched']),
  fitPaste: z.boolean().default(false).describe('A silicone fit check is planned'),
  tryInPaste: z.boolean().default(false).describe('A water-soluble shade paste is planned'),
  isolation: z.enum(['dam', 'rolls']),
  cement: z.string().trim().min(1).max(60).describe('Label of a cement on the shelf'),
  countsCleanReason: z
    .string()
    .trim()
    .min(3)
    .max(200)
    .optional()
    .describe(
      'Why the tried-in crown is not to count as contaminated; leave out unless someone says so',
    ),
});
export type UnitFacts = z.infer<typeof UnitFacts>;

/** The facts of one appointment. No patient name: a reference the practice can look up. */
export const CaseFile = z
  .strictObject({
    format: z.literal('seatcall-case/1'),
    reference: z.string().trim().min(1).max(64),
    invented: z.boolean().default(false).describe('True for demo data'),
    team: z.enum(['assisted', 'solo']).default('assisted'),
    roomC: z.number().min(10).max(40).default(23).describe('Room temperature in degrees C'),
    units: z.array(UnitFacts).min(1).max(8),
    shelf: Shelf,
  })
  .describe('A seating appointment: the units, and what is on the shelf');
export type CaseFile = z.infer<typeof CaseFile>;
/** A case as a person writes it, defaults left out. */
export type CaseInput = z.input<typeof CaseFile>;
