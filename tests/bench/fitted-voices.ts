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

/** The sound for which the runtime is held to what the learning program gave (`fit/expect.py`). */
export const CHECKED = {
  words: 'lantern, saliva on the inside',
  voice: 'britishMan',
} as const satisfies { readonly words: string; readonly voice: VoiceName };
