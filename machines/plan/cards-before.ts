import { materialOf } from '../trade/index.ts';
import { KIND_NAME } from './noun.ts';
import type { StepId } from '../contract/index.ts';
import type { Cards } from './card.ts';

/** From the case check to the crown out again after the try-in. */
export const BEFORE = {
  'case-check': {
    title: 'Case check',
    todo: ({ caseFile }) => {
      const units = caseFile.units.map(
        ({ tooth, kind, material }) =>
          `tooth ${tooth} (${kind === 'crown' ? '' : `${KIND_NAME[kind]}, `}${materialOf(material).name})`,
      );
      return `Check patient, ${units.join(', ')}, lab slip, shade, lot, margins and contacts on the model.`;
    },
    gate: 'Material known and agreed: it decides the protocol.',
    why: 'The wrong material assumed is the wrong acid and the wrong primer.',
    who: 'assistant',
    scope: 'case',
    cautions: ['not-a-device', 'roles'],
  },
  history: {
    title: 'History and consent',
    todo: 'Ask for allergies (resin, latex, metal) and photosensitisers; get consent. Anaesthesia where it is needed only: without it the bite is felt.',
    gate: 'Allergies and consent answered.',
    why: 'Resin, latex and bright light hurt those who react to them.',
    who: 'dentist',
    scope: 'case',
    cautions: ['resin-allergy'],
  },
  equipment: {
    title: 'Equipment',
    todo: ({ trade }) =>
      `Radiometer reading, air line on a mirror for oil and water, expiry dates, room temperature; cement out of the refrigerator for ${trade.clock.acclimatise.min / 60} minutes or more.`,
    gate: 'Reading, expiry and temperature written down; the mirror stays dry.',
    why: 'A weak light, oily air or cold cement ruins the bond without being seen.',
    who: 'assistant',
    scope: 'case',
    cautions: [],
  },
  disinfect: {
    title: 'Disinfect the crown',
    todo: ({ trade }) =>
      `Disinfect the crown: ${trade.limits.disinfectant.value} % alcohol or ultrasonic bath, as its instructions say; no heat unless they allow it.`,
    gate: 'Crown disinfected and dry.',
    why: 'It comes from the lab by many hands.',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
  'shade-photo': {
    title: 'Shade photo',
    todo: 'Photograph the shade before anything is dried.',
    gate: 'Photo taken.',
    why: 'A dried tooth looks lighter.',
    who: 'assistant',
    scope: 'case',
    cautions: [],
  },
  airway: {
    title: 'Protect the airway',
    todo: 'Throat pack with its tail outside, or dam; patient upright. Count the pack.',
    gate: 'Pack or dam in, before anything small goes into the mouth.',
    why: 'A wet crown slips.',
    who: 'assistant',
    scope: 'case',
    cautions: ['aspiration'],
  },
  'provisional-off': {
    title: 'Provisional off',
    todo: 'Take the provisional off.',
    gate: 'Provisional off in one piece, prep unharmed.',
    why: 'The crown seats on the prep, not on what covered it.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  'abutment-in': {
    title: 'Abutment in',
    todo: ({ unit, trade: { limits } }) =>
      `Cover or healing cap off. Abutment on the implant, its bonding surface abraded outside the mouth before (${limits.abutmentParticle.value} micrometre, ${limits.abutmentPressure.value} bar${unit.substrate === 'zirconia-abutment' ? ' at most' : ''}); screw to ${
        unit.abutment?.torqueNcm === undefined
          ? 'the torque its instructions say'
          : `${unit.abutment.torqueNcm} Ncm`
      }, driver on a ligature; tape (PTFE) over the screw.`,
    gate: 'Seated on the implant (radiograph), torque reached, access plugged.',
    why: 'A loose abutment loosens the crown; cement in the access locks the screw.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  'prep-clean': {
    title: 'Clean the prep',
    todo: ({ unit }) =>
      unit.provisionalCement === 'none'
        ? 'Clean the prep with pumice; stop any bleeding, and rinse the astringent off.'
        : 'All provisional cement off by hand instrument, then pumice; stop any bleeding, and rinse the astringent off.',
    gate: 'Prep clean to the margin, no bleeding.',
    why: ({ unit }) =>
      unit.provisionalCement === 'eugenol'
        ? 'Residue holds the crown up and blocks the bond, and eugenol stops resin setting.'
        : 'Residue holds the crown up and blocks the bond.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'try-in': {
    title: 'Try in',
    todo: 'Try the crown in, no force.',
    gate: 'It goes down without force.',
    why: 'From here on the crown counts as contaminated.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
  contacts: {
    title: 'Contacts',
    todo: 'Contacts, mesial and distal: floss snaps through, thin foil drags.',
    gate: 'Both contacts right, before the margins are judged.',
    why: 'A tight contact keeps the crown up and looks like an open margin.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  margins: {
    title: 'Seat and margins',
    todo: 'Explorer round the margin in both directions; try for rocking.',
    gate: ({ trade }) =>
      `Down, steady, no open margin (${trade.form.marginGap.value} micrometres at most).`,
    why: 'An open margin is cement line: it washes out.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'fit-paste': {
    title: 'Fit check with silicone',
    todo: 'Silicone fit paste in, seat, let it set, read it, peel it out.',
    gate: 'No show-through; paste peeled from crown and prep.',
    why: ({ material }) =>
      material.conditioner === 'abrade'
        ? 'It shows where it binds. Its film only comes off by abrading.'
        : 'It shows where it binds. Its film only comes off by hydrofluoric acid.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  shade: {
    title: 'Shade with try-in paste',
    todo: 'Water-soluble try-in paste in; judge the shade.',
    gate: 'Shade agreed.',
    why: 'The cement shows through. What the paste leaves counts as saliva.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'bite-before': {
    title: 'Bite before cementing',
    todo: ({ material }) =>
      `${material.biteBefore.how} What is high is ground now, with a fine instrument under water, never dry${
        material.family === 'glass' || material.porcelainOutside
          ? ': then polished or glazed again'
          : ': then polished'
      }.`,
    gate: 'Bite right; what was ground is smooth, and still thick enough where it was ground.',
    why: 'A high spot is ground and polished better out of the mouth. After conditioning nothing is ground.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  approval: {
    title: 'Patient approves',
    todo: 'Mirror to the patient: a spoken yes.',
    gate: 'A spoken yes.',
    why: 'It cannot be taken back later.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'take-out': {
    title: 'Take it out',
    todo: 'Crown out; fingers off the inside from here on.',
    gate: 'Crown on the bench.',
    why: 'Cleaner, hydrofluoric acid and abrasion are for outside the mouth only.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['aspiration'],
  },
} satisfies Partial<Cards<StepId>>;
