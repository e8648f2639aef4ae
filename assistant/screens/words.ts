/** How the closed vocabularies are spelled on screens. */
import type {
  CementClass,
  Contaminant,
  Finding,
  Material,
  Reason,
  Role,
  StepId,
  Substrate,
  Surface,
  Way,
} from '../../machines/contract/index.ts';

/** On every screen and in the first call of a case. */
export const CAUTION =
  'Seatcall supports a licensed clinician; it does not replace judgement, the manufacturer’s instructions for use or local rules. It is not a medical device.';

export const MATERIAL_WORDS = {
  feldspathic: 'Feldspathic porcelain',
  leucite: 'Leucite glass-ceramic',
  'lithium-disilicate': 'Lithium disilicate',
  'lithium-silicate-zirconia': 'Zirconia-reinforced lithium silicate',
  'polymer-infiltrated': 'Polymer-infiltrated ceramic',
  'resin-matrix': 'Resin-matrix ceramic, particle-filled',
  'zirconia-3y': 'Zirconia, 3Y, monolithic',
  'zirconia-4y': 'Zirconia, 4Y, monolithic',
  'zirconia-5y': 'Zirconia, 5Y, monolithic',
  'zirconia-veneered': 'Zirconia frame, veneered',
  alumina: 'Alumina, densely sintered',
  'alumina-infiltrated': 'Alumina, glass-infiltrated',
  'noble-metal': 'Noble alloy',
  'base-metal': 'Base-metal alloy (Co-Cr, Ni-Cr)',
  titanium: 'Titanium',
  'metal-ceramic-noble': 'Metal-ceramic, noble alloy',
  'metal-ceramic-base': 'Metal-ceramic, base-metal alloy',
} as const satisfies Readonly<Record<Material, string>>;

export const SUBSTRATE_WORDS = {
  dentin: 'Dentin',
  enamel: 'Enamel',
  'sealed-dentin': 'Sealed dentin (immediate sealing)',
  'composite-core': 'Composite core',
  'amalgam-core': 'Amalgam core',
  'noble-metal-core': 'Noble-metal post and core',
  'base-metal-core': 'Base-metal post and core',
  'titanium-abutment': 'Titanium abutment, in the mouth',
  'zirconia-abutment': 'Zirconia abutment, in the mouth',
  'titanium-base': 'Titanium base, bonded outside the mouth',
} as const satisfies Readonly<Record<Substrate, string>>;

export const CEMENT_WORDS = {
  'zinc-phosphate': 'Zinc phosphate',
  'glass-ionomer': 'Glass ionomer',
  'resin-modified-glass-ionomer': 'Resin-modified glass ionomer',
  'calcium-aluminate': 'Calcium aluminate hybrid',
  'adhesive-resin-light': 'Adhesive resin, light cure',
  'adhesive-resin-dual': 'Adhesive resin, dual cure',
  'adhesive-resin-self': 'Adhesive resin, self cure',
  'self-adhesive-resin': 'Self-adhesive resin',
} as const satisfies Readonly<Record<CementClass, string>>;

export const CONTAMINANT_WORDS = {
  saliva: 'saliva',
  blood: 'blood',
  glove: 'glove',
  drop: 'fall',
  'fit-paste': 'fit paste',
  'try-in-paste': 'try-in paste',
  cement: 'old cement',
  acid: 'phosphoric acid',
  disclosing: 'marking colour',
  provisional: 'provisional cement',
  'provisional-eugenol': 'eugenol cement',
  astringent: 'astringent',
  peroxide: 'peroxide',
  'glove-powder': 'glove powder',
  'air-line-oil': 'oil from the air line',
  stone: 'dental stone',
} as const satisfies Readonly<Record<Contaminant, string>>;

export const FINDING_WORDS = {
  'contacts-tight': 'Contacts tight',
  'contacts-open': 'Contacts open',
  'not-seating': 'Not seating',
  rocking: 'Rocking',
  'margin-open': 'Open margin',
  'shade-wrong': 'Shade wrong',
  'bite-high': 'Bite high',
  'still-bleeding': 'Still bleeding',
  'bleeding-stopped': 'Bleeding stopped',
  moved: 'It moved',
} as const satisfies Readonly<Record<Finding, string>>;

export const REASON_WORDS = {
  'clinical-judgement': 'Clinical judgement',
  'not-needed': 'Not needed',
  'not-available': 'Not available',
  'patient-comfort': 'Patient comfort',
  'already-done': 'Already done',
  'instructions-for-use': 'Instructions for use',
  'equipment-failed': 'Equipment failed',
} as const satisfies Readonly<Record<Reason, string>>;

export const ROLE_WORDS = {
  dentist: 'dentist',
  assistant: 'assistant',
  seatcall: 'Seatcall',
} as const satisfies Readonly<Record<Role, string>>;

export const WAY_WORDS = {
  voice: 'Voice',
  key: 'Key or pedal',
  touch: 'Touch',
  typed: 'Typed',
  file: 'Sound file',
} as const satisfies Readonly<Record<Way, string>>;

export const SURFACE_WORDS = {
  intaglio: 'Intaglio',
  prep: 'Prep',
  field: 'Field',
} as const satisfies Readonly<Record<Surface, string>>;

/** A step's id as words, for where its plan's title is not at hand. */
export function stepWords(step: StepId): string {
  const words = step.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const STATES: Readonly<Record<string, string>> = {
  bench: 'On the bench',
  mouth: 'In the mouth',
  seated: 'Seated',
  soiled: 'Soiled',
  underAgent: 'Agent on it',
  rinsed: 'Rinsed, wet',
  clean: 'Clean',
  conditioned: 'Conditioned',
  coated: 'Coated, wet',
  primed: 'Primed',
  loaded: 'Loaded',
  covered: 'Covered',
  exposed: 'Exposed',
  underAcid: 'Acid on it',
  etched: 'Etched',
  ready: 'Ready',
  open: 'Not isolated',
  isolated: 'Isolated, not dry',
  dry: 'Isolated and dry',
  none: 'Not mixed',
  mixed: 'Mixed',
  tacked: 'Tacked',
  cleared: 'Excess off',
  set: 'Set',
};

/** A region's state in plain words; an unknown one is shown as it is. */
export const stateWords = (state: string): string => STATES[state] ?? state;
