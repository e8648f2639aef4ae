/** Reasons, findings, contaminants, surfaces and cautions as they are said. */
import type {
  CautionId,
  Contaminant,
  Finding,
  Reason,
  Surface,
} from '../../machines/contract/index.ts';
import { sentence } from './wording.ts';

/** A reason, read back. */
export const REASON_WORDS = {
  'clinical-judgement': 'Clinical judgement.',
  'not-needed': 'Not needed.',
  'not-available': 'Not available.',
  'patient-comfort': 'Patient comfort.',
  'already-done': 'Already done.',
  'instructions-for-use': 'Instructions for use.',
  'equipment-failed': 'Equipment failed.',
} as const satisfies Record<Reason, string>;

/** A finding, named back, and what it calls for. */
export const FINDING_WORDS = {
  'contacts-tight': ['Contacts tight.', 'Adjust, polish, and check again.'],
  'contacts-open': ['Contacts open.', 'Decide whether it goes back to the laboratory.'],
  'not-seating': ['Not seating.', 'Check the contacts and the inside first.'],
  rocking: ['It rocks.', 'Find where it binds.'],
  'margin-open': ['Open margin.', 'Find out why before going on.'],
  'shade-wrong': ['Shade not right.', 'Decide before cementing.'],
  'bite-high': ['Bite high.', 'Adjust, and check again.'],
  'still-bleeding': ['Still bleeding.', 'Get it dry first.'],
  'bleeding-stopped': ['Bleeding over.', 'Rinse the prep.'],
  moved: ['It moved.', 'The bond may be broken.'],
} as const satisfies Record<Finding, readonly string[]>;

/** What landed on a surface, to be followed by "on" and the surface; a fall and a touch are said by themselves. */
const CONTAMINANT_WORDS = {
  saliva: 'saliva',
  blood: 'blood',
  glove: 'a glove touched it',
  drop: 'it was dropped',
  'fit-paste': 'fit paste',
  'try-in-paste': 'shade paste',
  cement: 'cement',
  acid: 'acid',
  disclosing: 'marking colour',
  provisional: 'temporary cement',
  'provisional-eugenol': 'eugenol cement',
  astringent: 'astringent',
  peroxide: 'peroxide',
  'glove-powder': 'glove powder',
  'air-line-oil': 'oil',
  stone: 'stone',
} as const satisfies Record<Contaminant, string>;

/** What comes before the cleaning step, where the contaminant asks for it (trade reference, 2). */
export const CONTAMINANT_FIRST: Partial<
  Readonly<Record<Contaminant, Partial<Readonly<Record<Surface, string>>>>>
> = {
  blood: { intaglio: 'Rinse it cold first.', prep: 'Bleeding over first.' },
  'fit-paste': { intaglio: 'Peel it, then alcohol.', prep: 'Peel it, then pumice.' },
  'try-in-paste': { intaglio: 'Spray it off first.', prep: 'Spray it off, then pumice.' },
  disclosing: { intaglio: 'Alcohol, then ultrasonic.', prep: 'Pumice, then rinse.' },
  provisional: { intaglio: 'Scrape it, then ultrasonic.', prep: 'By hand, then pumice.' },
  'provisional-eugenol': {
    intaglio: 'Scrape it, alcohol, then ultrasonic.',
    prep: 'By hand, then pumice. Better a week later.',
  },
  astringent: { intaglio: 'Rinse it first.', prep: 'Rinse it before any etch.' },
  peroxide: { prep: 'Resin does not bond to it yet.' },
  'glove-powder': { intaglio: 'Alcohol first.', prep: 'Pumice, then rinse.' },
  'air-line-oil': { intaglio: 'Acetone or alcohol first.', prep: 'Dry it with clean air.' },
  stone: { intaglio: 'Ultrasonic first.' },
};

/** A surface, and what its contamination makes due again. */
export const SURFACE_WORDS = {
  intaglio: ['the inside', 'Treat the inside again.'],
  prep: ['the prep', 'Clean and condition it again.'],
  field: ['the field', 'Isolate and dry it again.'],
} as const satisfies Record<Surface, readonly [string, string]>;

/** A caution, said before its hazard. */
export const CAUTION_WORDS = {
  'not-a-device': 'This is not a medical device.',
  'hydrofluoric-acid': 'Hydrofluoric acid. Gloves, face shield, calcium gluconate gel at hand.',
  'alkaline-cleaner': 'Strong alkali. Gloves and eye protection. Keep it out of the mouth.',
  'abrasion-dust': 'Dust. Extraction on, mask and eye protection.',
  'phosphoric-acid': 'Acid. Eye protection, and suction ready.',
  'resin-allergy': 'Resin. Do not touch it, and change gloves that do.',
  'blue-light': 'Blue light. Shields for everyone.',
  heat: 'The light heats the tooth. Air or a pause between exposures.',
  aspiration: 'It can be dropped. Guard the airway.',
  roles: 'Local rules say who may do this step.',
} as const satisfies Record<CautionId, string>;

/** What landed where: "Saliva on the inside." */
export function landedOn({
  surface,
  contaminant,
}: {
  readonly surface: Surface;
  readonly contaminant: Contaminant;
}): string {
  const what = CONTAMINANT_WORDS[contaminant];
  const wholeSentence = contaminant === 'drop' || contaminant === 'glove';
  return sentence(wholeSentence ? what : `${what} on ${SURFACE_WORDS[surface][0]}`);
}
