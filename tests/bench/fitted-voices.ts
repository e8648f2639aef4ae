import type { VoiceName } from '../speech/index.ts';

/** Voices that the confidence and the encoder are fitted on; the others look on. */
export const FITTED: readonly VoiceName[] = [
  'americanWoman',
  'britishWoman',
  'northernMan',
  'caribbeanWoman',
  'formantAmericanWoman',
  'formantAmericanMan',
];
