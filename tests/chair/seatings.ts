/** Two invented appointments, said through with everything that goes wrong in them. */
import type { CaseFile } from '../../machines/contract/index.ts';
import { DISILICATE, inventedCase, SHELF, ZIRCONIA } from './cases.ts';
import { Script, type ScriptOptions } from './script.ts';

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
async function before(script: Script): Promise<void> {
  await script.all('case checked', 'history taken', 'equipment checked', 'crown disinfected');
  await script.say('skip the shade photo', 'asked');
  await script.say('not available', 'asked');
  await script.say('yes');
  await script.all('throat pack in', 'prep clean');
}

async function seatAndCure(script: Script): Promise<void> {
  await script.say('mixing now', 'asked');
  await script.say('yes');
  await script.say('loading');
  await script.grave('seating', "it's home");
  await script.dwell('tack it', "that's it");
  await script.all('flash is off', 'floss through', "gel's on");
  await script.grave('curing occlusal', 'occlusal cured');
  await script.dwell('curing buccal', 'buccal cured');
  await script.dwell('curing lingual', 'lingual cured');
}

async function after(script: Script): Promise<void> {
  await script.all('dam off', 'margins clear', 'bite is good', 'crown polished');
  await script.all('instructions given', 'lots logged', 'close the case');
}

/**
 * Zirconia on a lower first molar: the cleaner tried in the mouth and refused, an early "that's
 * it", saliva after cleaning and a second try-in, everything cleaned again, seated, closed.
 */
export async function zirconiaTalk(options: ScriptOptions): Promise<Script> {
  const script = new Script(ZIRCONIA_CASE, options);
  await before(script);
  await script.all('trying in', "it's down", 'both contacts good', 'margins closed');
  await script.say('cleaner on', 'refused');
  await script.all('bite is good', "patient's happy", 'crown out');
  await script.dwell('rinsing', "it's rinsed");
  await script.say('cleaner on');
  await script.say("that's it", 'refused');
  await script.untilTime().say('cleaner off');
  await script.dwell('rinsing', "it's rinsed");
  await script.say('saliva on it');
  await script.all('trying in', 'crown out');
  await script.dwell('rinsing', "it's rinsed");
  await script.dwell('cleaner on', 'cleaner off');
  await script.dwell('rinsing', "it's rinsed");
  await script.dwell('air on it', "it's dry");
  await script.say('dam on');
  await script.dwell('pumice on', 'pumice rinsed');
  await script.dwell('dry check', 'field stays dry');
  await script.say('moist not wet');
  await seatAndCure(script);
  await script.dwell('letting it set', 'cement set');
  await after(script);
  return script;
}

/** Lithium disilicate on an upper premolar, with a silicone fit check, etched, silanated, bonded. */
export async function disilicateTalk(options: ScriptOptions): Promise<Script> {
  const script = new Script(DISILICATE_CASE, options);
  await before(script);
  await script.all('trying in', "it's down", 'both contacts good', 'margins closed');
  await script.all('fit paste in', 'fit paste checked', 'bite is good', "patient's happy");
  await script.say('crown out');
  await script.dwell('rinsing', "it's rinsed");
  await script.say('phosphoric acid on', 'refused');
  await script.grave('porcelain etch on', 'porcelain etch off');
  await script.dwell('rinsing', "it's rinsed");
  await script.dwell('air on it', "it's dry");
  await script.dwell('silane on', 'silane finished');
  await script.dwell('air on it', "it's dry");
  await script.say('dam on');
  await script.dwell('pumice on', 'pumice rinsed');
  await script.dwell('dry check', 'field stays dry');
  await script.dwell('tooth etch on', 'tooth etch off');
  await script.dwell('rinsing the tooth', 'tooth rinsed');
  await script.dwell('bond on', 'bond finished');
  await script.dwell('thin it', 'ripples gone');
  await seatAndCure(script);
  await script.dwell('letting it set', 'cement set');
  await after(script);
  return script;
}
