import type { CautionId } from '../contract/index.ts';

/** What is said where the hazard is. From common practice unless the text names a rule. */
export const CAUTION_TEXTS = {
  'not-a-device':
    "Seatcall supports a licensed clinician; it does not replace judgement, the manufacturer's instructions for use or local rules. It is not a medical device.",
  'hydrofluoric-acid':
    'Hydrofluoric acid: outside the mouth only. Nitrile gloves and face shield, calcium gluconate 2.5 % gel at hand. Pain comes late. Eyes: rinse 15 minutes and call emergency services.',
  'alkaline-cleaner':
    'Alkaline cleaner, pH 13 to 13.5: outside the mouth only. Gloves and eye protection; rinse thoroughly.',
  'abrasion-dust':
    'Abrasion dust: a restoration only outside the mouth, in an enclosed box with extraction; a core or a sealed surface in the mouth only under dam and suction. Mask and eye protection.',
  'phosphoric-acid':
    'Phosphoric acid burns: keep it off gum and skin, protect eyes, suction while rinsing.',
  'resin-allergy':
    'Uncured resin and primer: no touch. They pass through gloves in minutes: change gloves. Ask for resin allergy.',
  'blue-light':
    'Blue light: filter shield for all, the patient too. Never look at the tip. Ask for photosensitisers.',
  heat: 'Curing heats the pulp: short bursts, air stream, pause between. Keep the beam off mucosa.',
  aspiration:
    'The restoration can be swallowed or inhaled: throat pack with a tail, patient upright. If it is lost: airway first, then imaging.',
  roles:
    'Who may cement, remove cement and cure differs by place: local rules decide. The licensed dentist owns every decision.',
} as const satisfies Readonly<Record<CautionId, string>>;
