/** Every step in the words of the chair: its short name, what to do, and what is said once it runs. */
import type { StepId } from '../../machines/contract/index.ts';

/** The words of one step. */
export interface StepWords {
  /** Short, for timers: "silane". */
  readonly name: string;
  /** The one thing to do now. */
  readonly todo: string;
  /** Said when its dwell starts. */
  readonly on: string;
  /** What to do when its time is over; left out when the next step says it. */
  readonly over?: string;
}

/** Wording of every step. */
export const STEP_WORDS = {
  'case-check': {
    name: 'case check',
    todo: 'Check the case. Tooth, material, shade and lot.',
    on: 'Case check.',
  },
  history: {
    name: 'history',
    todo: 'Ask about allergies and consent.',
    on: 'Taking the history.',
  },
  equipment: {
    name: 'equipment check',
    todo: 'Test the light, the air line and the expiry dates.',
    on: 'Checking the equipment.',
  },
  disinfect: { name: 'disinfection', todo: 'Disinfect it.', on: 'Disinfecting.' },
  'shade-photo': {
    name: 'shade photo',
    todo: 'Take the shade photo before the tooth dries.',
    on: 'Shade photo.',
  },
  airway: {
    name: 'airway',
    todo: 'Protect the airway. Throat pack in.',
    on: 'Protecting the airway.',
  },
  'provisional-off': {
    name: 'provisional off',
    todo: 'Take the provisional off.',
    on: 'Provisional coming off.',
  },
  'abutment-in': {
    name: 'abutment',
    todo: 'Abutment on. Torque it, and plug the access.',
    on: 'Abutment going on.',
  },
  'prep-clean': {
    name: 'prep clean',
    todo: 'Clean the prep. All cement off, no bleeding.',
    on: 'Cleaning the prep.',
  },
  'try-in': { name: 'try-in', todo: 'Try it in, no force.', on: 'Trying in.' },
  contacts: {
    name: 'contact check',
    todo: 'Check both contacts with floss.',
    on: 'Checking the contacts.',
  },
  margins: {
    name: 'margins',
    todo: 'Check the seat and the margins.',
    on: 'Checking the margins.',
  },
  'fit-paste': { name: 'fit check', todo: 'Check the fit with paste.', on: 'Fit paste in.' },
  shade: { name: 'shade match', todo: 'Check the shade.', on: 'Checking the shade.' },
  'bite-before': {
    name: 'bite check',
    todo: 'Check the bite, gently.',
    on: 'Checking the bite.',
  },
  approval: { name: 'approval', todo: 'Show the patient in the mirror.', on: 'Patient looking.' },
  'take-out': { name: 'take-out', todo: 'Take it out of the mouth.', on: 'Coming out.' },
  'intaglio-rinse': {
    name: 'water rinse',
    todo: 'Rinse the inside.',
    on: 'Rinsing the inside.',
  },
  cleaner: {
    name: 'cleaner',
    todo: 'Cleaner on the inside.',
    on: 'Cleaner on.',
    over: 'Rinse it off now.',
  },
  'cleaner-rinse': {
    name: 'cleaner rinse',
    todo: 'Rinse the cleaner off.',
    on: 'Rinsing the cleaner.',
  },
  'acid-clean': {
    name: 'phosphoric acid',
    todo: 'Phosphoric acid on the inside.',
    on: 'Phosphoric acid on.',
    over: 'Rinse it off now.',
  },
  'acid-clean-rinse': {
    name: 'acid rinse',
    todo: 'Rinse the phosphoric acid off.',
    on: 'Rinsing the acid.',
  },
  abrade: {
    name: 'sandblasting',
    todo: 'Sandblast the inside.',
    on: 'Sandblasting.',
    over: 'End the sandblasting now.',
  },
  'porcelain-etch': {
    name: 'porcelain etch',
    todo: 'Porcelain etch on the inside.',
    on: 'Porcelain etch on.',
    over: 'Rinse it off now.',
  },
  'porcelain-etch-rinse': {
    name: 'porcelain rinse',
    todo: 'Rinse the porcelain etch off.',
    on: 'Rinsing the porcelain etch.',
  },
  'intaglio-dry': {
    name: 'inside drying',
    todo: 'Dry the inside.',
    on: 'Drying the inside.',
  },
  silane: {
    name: 'silane',
    todo: 'Silane on the inside.',
    on: 'Silane on.',
    over: 'Dry it now.',
  },
  'zirconia-primer': {
    name: 'zirconia primer',
    todo: 'Zirconia primer on the inside.',
    on: 'Zirconia primer on.',
    over: 'Dry it now.',
  },
  'metal-primer': {
    name: 'metal primer',
    todo: 'Metal primer on the inside.',
    on: 'Metal primer on.',
    over: 'Dry it now.',
  },
  'primer-dry': { name: 'primer air', todo: 'Air dry the primer.', on: 'Drying the primer.' },
  isolate: { name: 'isolation', todo: 'Isolate the tooth.', on: 'Isolating.' },
  pumice: { name: 'pumice', todo: 'Pumice the prep, and rinse.', on: 'Pumice on the prep.' },
  'abutment-clean': {
    name: 'abutment cleaning',
    todo: 'Clean the abutment with alcohol.',
    on: 'Cleaning the abutment.',
  },
  'base-abrade': {
    name: 'base blasting',
    todo: 'Sandblast the titanium base.',
    on: 'Blasting the base.',
    over: 'End the sandblasting now.',
  },
  'prep-roughen': {
    name: 'roughening',
    todo: 'Roughen the core, or the sealed surface.',
    on: 'Roughening.',
  },
  'dry-check': {
    name: 'field check',
    todo: 'Watch that the field stays dry.',
    on: 'Watching the field.',
  },
  'tooth-etch': {
    name: 'tooth etch',
    todo: 'Tooth etch on the tooth.',
    on: 'Tooth etch on.',
    over: 'Rinse it off now.',
  },
  'tooth-etch-rinse': {
    name: 'tooth rinse',
    todo: 'Rinse the tooth etch off.',
    on: 'Rinsing the tooth.',
  },
  'core-primer': {
    name: 'core primer',
    todo: 'Alloy primer on the core.',
    on: 'Alloy primer on the core.',
    over: 'Dry it now.',
  },
  'abutment-primer': {
    name: 'abutment primer',
    todo: 'Phosphate primer on the abutment.',
    on: 'Primer on the abutment.',
    over: 'Dry it now.',
  },
  bond: {
    name: 'bond',
    todo: 'Bond on the prep. Rub it in.',
    on: 'Bond on.',
    over: 'Thin it now.',
  },
  'bond-thin': { name: 'bond thinning', todo: 'Thin the bond with air.', on: 'Thinning the bond.' },
  'prep-moist': {
    name: 'prep moist',
    todo: 'Leave the prep moist, not wet.',
    on: 'Checking the prep.',
  },
  'prep-dry': {
    name: 'surface air',
    todo: 'Dry the surface. No touch.',
    on: 'Drying the surface.',
  },
  mix: { name: 'cement mixing', todo: 'Mix the cement.', on: 'Mixing. Working time runs.' },
  load: { name: 'cement loading', todo: 'Load it. A thin layer.', on: 'Loading.' },
  seat: {
    name: 'seating',
    todo: 'Seat it. Firm and straight.',
    on: 'Seating. Hold it firm.',
  },
  tack: {
    name: 'tack light',
    todo: 'Tack the excess with the light.',
    on: 'Tacking.',
    over: 'Light off now.',
  },
  'gel-wait': {
    name: 'hold time',
    todo: 'Hold still until the cement gels.',
    on: 'Keep still. Nobody moves.',
    over: 'Take the flash off now.',
  },
  flash: { name: 'flash removal', todo: 'Take the flash off.', on: 'Flash coming off.' },
  floss: { name: 'floss', todo: 'Floss through. Pull it out sideways.', on: 'Flossing.' },
  gel: { name: 'gel cover', todo: 'Gel over the margins.', on: 'Gel on.' },
  'cure-occlusal': { name: 'top cure', todo: 'Cure the top side.', on: 'Curing the top.' },
  'cure-buccal': {
    name: 'buccal cure',
    todo: 'Cure the buccal side.',
    on: 'Curing the buccal side.',
  },
  'cure-lingual': {
    name: 'lingual cure',
    todo: 'Cure the lingual side.',
    on: 'Curing the lingual side.',
  },
  set: { name: 'setting time', todo: 'Wait for the cement to set.', on: 'Cement setting.' },
  'joint-finish': {
    name: 'joint polish',
    todo: 'Polish the joint, and disinfect.',
    on: 'Polishing the joint.',
  },
  'isolation-out': {
    name: 'dam out',
    todo: 'Dam, cord and pack out. Count them.',
    on: 'Isolation coming out.',
  },
  residual: {
    name: 'cement check',
    todo: 'Look for cement all round.',
    on: 'Looking for cement.',
  },
  'screw-in': {
    name: 'screw in',
    todo: 'Screw it in by hand. Check contacts and seat.',
    on: 'Screwing it in.',
  },
  torque: {
    name: 'torque',
    todo: 'Torque the screw.',
    on: 'Torque on the screw.',
  },
  'bite-after': {
    name: 'final bite',
    todo: 'Check the final bite.',
    on: 'Checking the final bite.',
  },
  'access-close': {
    name: 'access',
    todo: 'Tape in the access. Close it.',
    on: 'Closing the access.',
  },
  polish: { name: 'final polish', todo: 'Polish what was adjusted.', on: 'Polishing.' },
  instructions: {
    name: 'instructions',
    todo: 'Give the patient the instructions.',
    on: 'Giving the instructions.',
  },
  lots: { name: 'lot numbers', todo: 'Log the lot numbers.', on: 'Logging the lots.' },
} as const satisfies Record<StepId, StepWords>;
