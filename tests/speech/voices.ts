/** The people the tests speak as. Every voice is synthesised, offline, by a WebAssembly build. */
import type { FliteVoice } from '../../prompts/render/flite.ts';

/** How a voice is made: a voice of flite, or an accent and a speaker variant of eSpeak NG. */
export type VoiceSpec =
  | { readonly engine: 'flite'; readonly voice: FliteVoice }
  | { readonly engine: 'espeak'; readonly accent: string; readonly variant: string };

const flite = (voice: FliteVoice): VoiceSpec => ({ engine: 'flite', voice });
const espeak = (accent: string, variant: string): VoiceSpec => ({
  engine: 'espeak',
  accent,
  variant,
});

/** By name. The flite voices are cut from recordings and sound nearer to a person than the rest. */
export const VOICES = {
  americanWoman: flite('slt'),
  americanMan: flite('rms'),
  scottishMan: flite('awb'),
  secondAmericanMan: flite('kal16'),
  britishWoman: espeak('en', 'f2'),
  britishMan: espeak('en', 'm3'),
  receivedWoman: espeak('en-gb-x-rp', 'f3'),
  northernMan: espeak('en-gb-x-gbclan', 'm7'),
  scottishWoman: espeak('en-gb-scotland', 'f4'),
  caribbeanWoman: espeak('en-029', 'f2'),
  formantAmericanWoman: espeak('en-us', 'f3'),
  formantAmericanMan: espeak('en-us', 'm1'),
} as const satisfies Readonly<Record<string, VoiceSpec>>;

/** A voice's name. */
export type VoiceName = keyof typeof VOICES;
