/** Two invented appointments, said through with everything that goes wrong in them. */
import type { CaseFile } from '../../machines/contract/index.ts';
import { DISILICATE, inventedCase, SHELF, ZIRCONIA } from './cases.ts';
import type { Talk } from './talk.ts';

/** Invented: materials whose instructions for use are quick, so that a test need not wait minutes. */
const QUICK = {
  ...SHELF,
  silane: { label: 'quick silane', ifu: { minS: 20, targetS: 25 } },
  cements: SHELF.cements.map((cement) => ({ ...cement, workingS: 90, settingS: 110 })),
};

export const ZIRCONIA_CASE: CaseFile = inventedCase(
  [{ ...ZIRCONIA, cement: 'self-adhesive resin', provisionalCement: 'none' }],
  { reference: 'INVENTED-ZIRCONIA', shelf: QUICK },
);

export const DISILICATE_CASE: CaseFile = inventedCase(
  [{ ...DISILICATE, provisionalCement: 'none' }],
  { reference: 'INVENTED-DISILICATE', shelf: QUICK },
);

/** The look before anything goes into the mouth. */
async function before(talk: Talk): Promise<void> {
  await talk.all('case checked', 'history taken', 'equipment checked', 'crown disinfected');
  await talk.say('skip the shade photo', 'asked');
  await talk.say('not available', 'asked');
  await talk.say('yes');
  await talk.all('throat pack in', 'prep clean');
}

async function seatAndCure(talk: Talk): Promise<void> {
  await talk.say('mixing now', 'asked');
  await talk.say('yes');
  await talk.say('loading now');
  await talk.grave('seating now', "it's home");
  await talk.dwell('tacking now', "that's it");
  await talk.all('flash is off', 'floss is through', "gel's on");
  await talk.grave('curing the top', 'top is cured');
  await talk.dwell('curing buccal', 'buccal cured');
  await talk.dwell('curing lingual', 'lingual cured');
}

async function after(talk: Talk): Promise<void> {
  await talk.all('dam off', 'margins clear', 'bite is good', 'crown polished');
  await talk.all('instructions given', 'lots are logged', 'close the case');
}

/**
 * Zirconia on a lower first molar: the cleaner tried in the mouth and refused, an early "that's
 * it", saliva after cleaning and a second try-in, everything cleaned again, seated, closed.
 */
export async function seatZirconia(talk: Talk): Promise<void> {
  await before(talk);
  await talk.all('trying in', "it's down", 'both contacts good', 'margins closed');
  await talk.say('cleaner on', 'refused');
  await talk.all('bite is good', "patient's happy", 'crown out');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.say('cleaner on');
  await talk.say("that's it", 'refused');
  await talk.untilTime();
  await talk.say('cleaner off');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.say('saliva on the crown');
  await talk.all('trying in', 'crown out');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.dwell('cleaner on', 'cleaner off');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.dwell('air on it', "it's dry");
  await talk.say('dam on');
  await talk.dwell('pumice is on', 'pumice rinsed');
  await talk.dwell('dry check', 'field stays dry');
  await talk.say('moist not wet');
  await seatAndCure(talk);
  await talk.dwell('letting it set', 'cement set');
  await after(talk);
}

/** Lithium disilicate on an upper premolar, with a silicone fit check, etched, silanated, bonded. */
export async function seatDisilicate(talk: Talk): Promise<void> {
  await before(talk);
  await talk.all('trying in', "it's down", 'both contacts good', 'margins closed');
  await talk.all('fit paste in', 'fit paste checked', 'bite is good', "patient's happy");
  await talk.say('crown out');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.say('phosphoric acid on', 'refused');
  await talk.grave('porcelain etch on', 'porcelain etch off');
  await talk.dwell('rinsing now', "it's rinsed");
  await talk.dwell('air on it', "it's dry");
  await talk.dwell('silane on', 'silane finished');
  await talk.dwell('air on it', "it's dry");
  await talk.say('dam on');
  await talk.dwell('pumice is on', 'pumice rinsed');
  await talk.dwell('dry check', 'field stays dry');
  await talk.dwell('tooth etch on', 'tooth etch off');
  await talk.dwell('rinsing the tooth', 'tooth rinsed');
  await talk.dwell('bond on', 'bond finished');
  await talk.dwell('thinning the bond', 'ripples gone');
  await seatAndCure(talk);
  await talk.dwell('letting it set', 'cement set');
  await after(talk);
}
