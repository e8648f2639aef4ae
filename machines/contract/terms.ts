/** The closed vocabularies that cross a boundary. Ids are the trade's words; wording for people lives in `prompts` and the plan. */

/** Restoration materials a plan can be made for. Codes of the trade tables in comments. */
export const MATERIALS = [
  'feldspathic', // FEL
  'leucite', // LEU
  'lithium-disilicate', // LDS
  'lithium-silicate-zirconia', // ZLS, zirconia-reinforced lithium silicate
  'polymer-infiltrated', // PIC, polymer-infiltrated ceramic network
  'resin-matrix', // RMC, particle-filled resin
  'zirconia-3y', // Z3, monolithic
  'zirconia-4y', // Z4, monolithic
  'zirconia-5y', // Z5, monolithic
  'zirconia-veneered', // ZV, frame with porcelain
  'alumina', // AL, densely sintered
  'alumina-infiltrated', // AL-G, glass-infiltrated
  'noble-metal', // MN
  'base-metal', // MB, Co-Cr or Ni-Cr
  'titanium', // MB
  'metal-ceramic-noble', // MN under porcelain
  'metal-ceramic-base', // MB under porcelain
] as const;
export type Material = (typeof MATERIALS)[number];

export const UNIT_KINDS = [
  'crown',
  'bridge',
  'veneer',
  'inlay',
  'onlay',
  'resin-bonded-bridge',
  'implant-crown',
] as const;
export type UnitKind = (typeof UNIT_KINDS)[number];

/** What a unit is cemented to. A titanium base is bonded to outside the mouth; other abutments are in it. */
export const SUBSTRATES = [
  'dentin',
  'enamel',
  'sealed-dentin',
  'composite-core',
  'amalgam-core',
  'noble-metal-core',
  'base-metal-core',
  'titanium-abutment',
  'zirconia-abutment',
  'titanium-base',
] as const;
export type Substrate = (typeof SUBSTRATES)[number];

/** How an adhesive is used on the tooth. */
export const BONDING_MODES = ['etch-and-rinse', 'selective-enamel', 'self-etch'] as const;
export type BondingMode = (typeof BONDING_MODES)[number];

export const CEMENT_CLASSES = [
  'zinc-phosphate',
  'glass-ionomer',
  'resin-modified-glass-ionomer',
  'calcium-aluminate',
  'adhesive-resin-light',
  'adhesive-resin-dual',
  'adhesive-resin-self',
  'self-adhesive-resin',
] as const;
export type CementClass = (typeof CEMENT_CLASSES)[number];

/** What can land on a surface. `acid` is phosphoric acid on an oxide ceramic: it takes the primer's place. */
export const CONTAMINANTS = [
  'saliva',
  'blood',
  'glove',
  'drop',
  'fit-paste',
  'try-in-paste',
  'cement',
  'acid',
  'disclosing', // spray or articulating pigment
  'provisional', // provisional cement without eugenol
  'provisional-eugenol',
  'astringent', // aluminium chloride or ferric sulfate
  'peroxide', // hydrogen peroxide, bleaching
  'glove-powder', // powder or latex
  'air-line-oil', // oil or water from the air line
  'stone', // dental stone
] as const;
export type Contaminant = (typeof CONTAMINANTS)[number];

export const SURFACES = ['intaglio', 'prep', 'field'] as const;
export type Surface = (typeof SURFACES)[number];

/** Every step a plan can hold, in the order of the appointment. */
export const STEPS = [
  'case-check',
  'history',
  'equipment',
  'disinfect',
  'shade-photo',
  'airway',
  'provisional-off',
  'abutment-in',
  'prep-clean',
  'try-in',
  'contacts',
  'margins',
  'fit-paste',
  'shade',
  'bite-before',
  'approval',
  'take-out',
  'intaglio-rinse',
  'cleaner',
  'cleaner-rinse',
  'acid-clean',
  'acid-clean-rinse',
  'abrade',
  'porcelain-etch',
  'porcelain-etch-rinse',
  'intaglio-dry',
  'silane',
  'zirconia-primer',
  'metal-primer',
  'primer-dry',
  'isolate',
  'pumice',
  'abutment-clean',
  'base-abrade',
  'prep-roughen',
  'dry-check',
  'tooth-etch',
  'tooth-etch-rinse',
  'core-primer',
  'abutment-primer',
  'bond',
  'bond-thin',
  'prep-moist',
  'prep-dry',
  'mix',
  'load',
  'seat',
  'tack',
  'gel-wait',
  'flash',
  'floss',
  'gel',
  'cure-occlusal',
  'cure-buccal',
  'cure-lingual',
  'set',
  'joint-finish',
  'isolation-out',
  'residual',
  'screw-in',
  'torque',
  'bite-after',
  'access-close',
  'polish',
  'instructions',
  'lots',
] as const;
export type StepId = (typeof STEPS)[number];

/** Reasons a person can give for a deviation; spoken and kept in the record. */
export const REASONS = [
  'clinical-judgement',
  'not-needed',
  'not-available',
  'patient-comfort',
  'already-done',
  'instructions-for-use',
  'equipment-failed',
] as const;
export type Reason = (typeof REASONS)[number];

/** What the dentist finds at try-in, in the field or after cementing, that is not simply a step done. */
export const FINDINGS = [
  'contacts-tight',
  'contacts-open',
  'not-seating',
  'rocking',
  'margin-open',
  'shade-wrong',
  'bite-high',
  'still-bleeding',
  'bleeding-stopped',
  'moved',
] as const;
export type Finding = (typeof FINDINGS)[number];

export const ROLES = ['dentist', 'assistant', 'seatcall'] as const;
export type Role = (typeof ROLES)[number];

/** The ways in: they are equal, and differ only in this mark. */
export const WAYS = ['voice', 'key', 'touch', 'typed', 'file'] as const;
export type Way = (typeof WAYS)[number];

/** Hazards with a usual caution; wording in the plan and the calls. */
export const CAUTIONS = [
  'not-a-device',
  'hydrofluoric-acid',
  'alkaline-cleaner',
  'abrasion-dust',
  'phosphoric-acid',
  'resin-allergy',
  'blue-light',
  'heat',
  'aspiration',
  'roles',
] as const;
export type CautionId = (typeof CAUTIONS)[number];

/** ISO 3950 permanent teeth, as their two digits. Source: ISO 3950 (from memory). */
export const TEETH = [1, 2, 3, 4].flatMap((quadrant) =>
  [1, 2, 3, 4, 5, 6, 7, 8].map((place) => `${quadrant}${place}`),
);
