/** Somebody speaks while one of our calls comes back out of the loudspeaker: the live ear on a sound, in made time. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { readWav } from '../../assistant/cli/wav.ts';
import { Ear } from '../../assistant/ear/ear.ts';
import type { Hearing } from '../../assistant/ear/listener.ts';
import { type Pcm, type Recogniser, SAMPLE_RATE } from '../../assistant/ear/port.ts';
import type { SoundHandlers, SoundSource } from '../../assistant/ear/sound-source.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { renderClips } from '../../prompts/render/clips.ts';
import { amplitude } from '../speech/noise.ts';

const FRAME = 512;
const FRAME_MS = (FRAME * 1000) / SAMPLE_RATE;
const msOf = (samples: number): number => (samples * 1000) / SAMPLE_RATE;

/** What is played into the ear. */
export interface OverACall {
  /** The room and what a person says in it. */
  readonly pcm: Pcm;
  /** The call, as it is played. */
  readonly call: { readonly text: string; readonly pcm: Pcm; readonly question?: boolean };
  /** When it begins, ms. */
  readonly callAtMs: number;
  /** How loud it comes back, decibels: 0 is as it is played. */
  readonly echoDb: number;
  readonly phrases: string;
}

/** A hearing, and when its segment was complete. */
export interface HeardOver extends Hearing {
  readonly givenMs: number;
}

/** A clip of the catalogue as it is played. @throws Error when there is none of that text. */
export async function clipOf(text: string): Promise<Pcm> {
  const folder = fileURLToPath(new URL('../../.cache/clips/', import.meta.url));
  const { manifest } = await renderClips(allPieces(), folder);
  const clip = manifest.clips[text];
  if (clip === undefined) throw new Error(`no clip says "${text}"`);
  return readWav(await readFile(folder + clip.file));
}

/** What the live ear hears of it; all times from the beginning of the sound. */
export async function heardOver(
  recogniser: Recogniser,
  { pcm, call, callAtMs, echoDb, phrases }: OverACall,
): Promise<readonly HeardOver[]> {
  let nowMs = 0;
  let working: Promise<unknown> = Promise.resolve();
  let givenMs = 0;
  const heard: HeardOver[] = [];
  const played: { handlers: SoundHandlers | null } = { handlers: null };
  const source: SoundSource = {
    start: async (handlers) => {
      played.handlers = handlers;
      handlers.onStart(false);
    },
    speaking: () => undefined,
    stop: async () => undefined,
  };
  const watched: Recogniser = {
    load: (grammar) => recogniser.load(grammar),
    hearAhead: async (segment) => recogniser.hearAhead?.(segment),
    hear: async (segment) => {
      givenMs = nowMs;
      const found = recogniser.hear(segment);
      working = found;
      return found;
    },
    close: () => recogniser.close(),
  };
  const ear = new Ear({
    source,
    recogniser: watched,
    weights: await loadSpeechWeights(),
    now: () => nowMs,
    phrases,
    onHeard: (hearing) => heard.push({ ...hearing, givenMs }),
    onTrouble: () => undefined,
    onWell: () => undefined,
    onLevel: () => undefined,
  });
  await ear.start();
  const gain = amplitude(echoDb);
  const at = Math.round((callAtMs * SAMPLE_RATE) / 1000);
  const endMs = callAtMs + msOf(call.pcm.length);
  let told = 0;
  for (let from = 0; from + FRAME <= pcm.length; from += FRAME) {
    const frame = pcm
      .slice(from, from + FRAME)
      .map((sample, i) => sample + (call.pcm[from + i - at] ?? 0) * gain);
    nowMs += FRAME_MS;
    // The voice tells of a call as it begins, with the end that it will have.
    if (told === 0 && nowMs >= callAtMs) {
      const { text, question = false } = call;
      ear.speaking({ text, from: callAtMs, until: endMs, question });
      told = 1;
    }
    played.handlers?.onSound(frame, 0);
    // A segment is loaded for and heard in turns of its own.
    await new Promise(setImmediate);
    await working;
    await new Promise(setImmediate);
  }
  await ear.stop();
  return heard;
}
