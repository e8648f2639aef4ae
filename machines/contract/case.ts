import { z } from 'zod';
import {
  BONDING_MODES,
  CEMENT_CLASSES,
  MATERIALS,
  SUBSTRATES,
  TEETH,
  UNIT_KINDS,
} from './terms.ts';

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

/** Why a lot past its date is used all the same; without it an expired lot is refused. */
const expiredReason = z
  .string()
  .trim()
  .min(3)
  .max(200)
  .optional()
  .describe('Why a lot past its date is used all the same; leave out for a lot in date');

/** The last digit makes the sum, from the right with weights 1 and 3 in turn, a multiple of ten (GS1 General Specifications). */
const checks = (gtin: string): boolean =>
  Array.from(gtin)
    .toReversed()
    .reduce((sum, digit, i) => sum + Number(digit) * (i % 2 === 0 ? 1 : 3), 0) %
    10 ===
  0;

/** The device identifier of a UDI; lot and date are its other half. */
const gtin = z
  .string()
  .regex(/^\d{14}$/)
  .refine(checks, 'a GTIN whose last digit is its check digit')
  .optional()
  .describe('Device identifier of its UDI: the 14 digits after (01) on the pack');

const ShelfItem = z.strictObject({
  label: z.string().trim().min(1).max(60).describe("The practice's own name for it"),
  gtin,
  lot: z.string().trim().min(1).max(20).optional(),
  expires: z.iso.date().optional(),
  expiredReason,
  ifu: IfuTimes.optional(),
});

const touchCure = z
  .boolean()
  .optional()
  .describe('True when it speeds the cement on contact: the working time counts half');

/** A primer, which may speed the cement it meets. */
const Primer = ShelfItem.extend({ touchCure });

export const Cement = ShelfItem.omit({ ifu: true }).extend({
  class: z.enum(CEMENT_CLASSES),
  carriesPhosphate: z
    .boolean()
    .default(false)
    .describe(
      'True when the cement itself holds a phosphate monomer, so that zirconia needs no primer',
    ),
  amine: z
    .boolean()
    .optional()
    .describe('True when a tertiary amine starts its self cure; leave out when not known'),
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

/** One number of the trade tables as this practice has it. */
const OwnNumber = z
  .strictObject({
    path: z.string().min(3).max(120).describe('Where it stands, as `plan -- --sources` prints it'),
    value: z.number().optional(),
    min: z.number().nullable().optional(),
    target: z.number().optional(),
    max: z.number().nullable().optional(),
    from: z
      .string()
      .trim()
      .min(3)
      .max(120)
      .describe('Whose number it is: instructions for use of what'),
  })
  .describe('A number of the trade tables as the practice has it; outranks the built-in one');
export type OwnNumber = z.infer<typeof OwnNumber>;

export const Shelf = z.strictObject({
  abrasion: z
    .strictObject({
      particleUm: z.number().positive().max(500).describe('Alumina particle size in micrometres'),
      bar: z.number().positive().max(10).describe('Pressure it is usually set to'),
      ifu: IfuTimes.optional(),
    })
    .nullable()
    .describe('Chairside air abrasion unit, or null if there is none'),
  cleaner: ShelfItem.nullable().describe('Alkaline zirconia-suspension cleaner, or null'),
  hydrofluoricAcid: ShelfItem.extend({
    percent: z.number().positive().max(70).describe('Strength by weight'),
  }).nullable(),
  phosphoricAcid: ShelfItem.nullable(),
  silane: Primer.nullable(),
  phosphatePrimer: Primer.nullable().describe('10-MDP primer, or null'),
  metalPrimer: Primer.extend({
    monomer: z
      .enum(['sulfur', 'phosphate', 'both'])
      .describe(
        'sulfur (thione, thiophosphate) for noble alloys, phosphate (10-MDP) or 4-META for base ones',
      ),
  })
    .nullable()
    .default(null)
    .describe('Primer for alloys, or null'),
  adhesive: Primer.extend({
    acidic: z
      .boolean()
      .optional()
      .describe('True for a one-bottle adhesive of pH about 3 or less; leave out when not known'),
    activator: z
      .boolean()
      .optional()
      .describe('True when a dual-cure activator, or a cement matched to it, is used with it'),
  })
    .nullable()
    .describe('Universal adhesive for the tooth, or null'),
  cements: z.array(Cement).min(1).max(12),
  light: z
    .strictObject({
      mwCm2: z.number().positive().max(10_000).describe('Radiometer reading, mW/cm2'),
      baselineMwCm2: z
        .number()
        .positive()
        .max(10_000)
        .optional()
        .describe('What the same radiometer read when the light was new, mW/cm2'),
    })
    .nullable()
    .describe('Curing light, or null'),
  numbers: z.array(OwnNumber).max(400).optional(),
});
export type Shelf = z.infer<typeof Shelf>;

/** A prepared tooth or an abutment, as a frustum. */
export const Prep = z.strictObject({
  heightMm: z.number().min(0.5).max(12).describe('Occluso-cervical height of the prep'),
  convergenceDeg: z
    .number()
    .min(0)
    .max(60)
    .describe('Total occlusal convergence: both walls together'),
  widthMm: z.number().min(3).max(14).describe('Base width at the margin, faciolingual'),
  groove: z.boolean().optional().describe('A proximal groove or box was cut for resistance'),
});
export type Prep = z.infer<typeof Prep>;

/** What a bridge is besides its first retainer, whose tooth and prep are the unit's own. */
export const Span = z.strictObject({
  retainers: z
    .array(
      z.strictObject({
        tooth: z.enum(TEETH).describe(isoTeeth),
        prep: Prep.optional(),
        substrate: z
          .enum(SUBSTRATES)
          .optional()
          .describe('What this retainer sits on; left out: the same as the first'),
      }),
    )
    .max(6)
    .describe('The other retainers; empty for a cantilever'),
  pontics: z.array(z.enum(TEETH)).min(1).max(6).describe('The teeth it replaces'),
  connectorMm2: z.number().positive().max(60).describe('Smallest connector, area in mm2'),
});
export type Span = z.infer<typeof Span>;

const why = (text: string) => z.string().trim().min(3).max(200).optional().describe(text);

export const UnitFacts = z.strictObject({
  tooth: z.enum(TEETH).describe(isoTeeth),
  kind: z.enum(UNIT_KINDS),
  material: z.enum(MATERIALS),
  translucency: z.enum(['high', 'low']).default('low'),
  darkShade: z.boolean().optional().describe('True for A3.5 and darker'),
  thicknessMm: z
    .number()
    .min(0.3)
    .max(4)
    .describe('Thickness of the restoration: occlusal, of a veneer facial, of an inlay its depth'),
  substrate: z.enum(SUBSTRATES),
  bonding: z
    .enum(BONDING_MODES)
    .optional()
    .describe(
      'How the adhesive is used; left out: selective enamel etch, or self-etch without acid',
    ),
  prep: Prep.optional().describe('Needed for a crown, a bridge and an implant crown'),
  bridge: Span.optional().describe('Needed for a bridge and a resin-bonded bridge'),
  abutment: z
    .strictObject({
      torqueNcm: z
        .number()
        .positive()
        .max(60)
        .optional()
        .describe('Torque of the screw as its instructions say, Ncm'),
      marginBelowGumMm: z.number().min(0).max(8).optional(),
    })
    .optional()
    .describe('Of an implant crown'),
  provisionalCement: z
    .enum(['none', 'non-eugenol', 'eugenol'])
    .describe('none: there is no provisional'),
  intaglioFromLab: z.enum(['untreated', 'abraded', 'etched']),
  fitPaste: z.boolean().default(false).describe('A silicone fit check is planned'),
  tryInPaste: z.boolean().default(false).describe('A water-soluble shade paste is planned'),
  isolation: z.enum(['dam', 'rolls']),
  astringent: z.enum(['aluminium-chloride', 'ferric-sulfate']).optional(),
  bleachedDaysAgo: z.number().int().min(0).max(365).optional().describe('Days since bleaching'),
  bleachedReason: why(
    'Why it is bonded although it was bleached less than a week ago, such as ascorbate on it',
  ),
  desensitiser: z
    .enum(['glutaraldehyde', 'chlorhexidine', 'oxalate', 'fluoride-varnish'])
    .optional()
    .describe('Used, or meant to be used, on this tooth'),
  cement: z.string().trim().min(1).max(60).describe('Label of a cement on the shelf'),
  countsCleanReason: why(
    'Why the tried-in crown is not to count as contaminated; leave out unless someone says so',
  ),
  belowMinimumReason: why(
    'Why it is seated though thinner, or its connector smaller, than the material needs',
  ),
});
export type UnitFacts = z.infer<typeof UnitFacts>;

/** What the assistant does here, where local rules allow it. */
export const TASKS = ['condition', 'cement', 'clear', 'cure'] as const;
export type Task = (typeof TASKS)[number];

/** The facts of one appointment. No patient name: a reference the practice can look up. */
export const CaseFile = z
  .strictObject({
    format: z.literal('seatcall-case/1'),
    reference: z.string().trim().min(1).max(64),
    invented: z.boolean().default(false).describe('True for demo data'),
    team: z.enum(['assisted', 'solo']).default('assisted'),
    roomC: z.number().min(10).max(40).default(23).describe('Room temperature in degrees C'),
    on: z.iso.date().optional().describe('Day of the appointment: expiry dates are judged by it'),
    assistantMay: z
      .array(z.enum(TASKS))
      .max(TASKS.length)
      .optional()
      .describe('What the assistant does; local rules decide. Left out: condition, clear, cure'),
    units: z.array(UnitFacts).min(1).max(8),
    shelf: Shelf,
  })
  .describe('A seating appointment: the units, and what is on the shelf');
export type CaseFile = z.infer<typeof CaseFile>;
/** A case as a person writes it, defaults left out. */
export type CaseInput = z.input<typeof CaseFile>;
