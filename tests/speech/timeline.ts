/** A talk as one sound file: who says what and when, over noise, ending in long silence. */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { encodeWav } from '../../prompts/render/wav.ts';
import { SPEECH_RATE, speak, type VoiceName } from './index.ts';
import { amplitude, handpiece, hiss, rms, suction } from './noise.ts';
import { resample } from './resample.ts';

/** One thing said. */
export interface Utterance {
  /** When its sound file begins, in milliseconds from the start of the talk. */
  readonly atMs: number;
  readonly text: string;
  readonly voice: VoiceName;
  readonly stretch?: number;
  /** Louder or softer than the talk's speech level, in decibels. */
  readonly gainDb?: number;
}

/** A stretch of noise. */
export interface Noise {
  readonly kind: 'suction' | 'handpiece' | 'hiss';
  /** Speech level less noise level, in decibels. */
  readonly snrDb: number;
  readonly seed: number;
  readonly fromMs?: number;
  /** To the end of the talk unless given. */
  readonly toMs?: number;
}

/** A talk before it is sound. */
export interface Talk {
  readonly utterances: readonly Utterance[];
  readonly noises?: readonly Noise[];
  /** Silence after the last word; the browser plays a fake microphone's file round and round. */
  readonly tailMs?: number;
  /**
   * Samples a second, 16 000 unless given. The browser's fake microphone takes any usual rate and
   * gives the same speech back; more is wanted only for noise above 8 kHz.
   */
  readonly rate?: number;
}

/** An utterance with the times at which its speech is first and last above -40 dB of its peak. */
export interface Spoken extends Utterance {
  readonly startMs: number;
  readonly endMs: number;
}

/** A talk as sound. */
export interface Sound {
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly spoken: readonly Spoken[];
}

/** Speech level: a headset's, well clear of clipping. */
const SPEECH_DBFS = -24;
/** The hiss of a quiet room, so that nothing is ever digitally silent. */
const ROOM_DBFS = -72;
const TAIL_MS = 120_000;

function bounds(pcm: Float32Array): readonly [first: number, last: number] {
  const peak = pcm.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const loud = (sample: number): boolean => Math.abs(sample) >= peak / 100;
  return [Math.max(0, pcm.findIndex(loud)), pcm.findLastIndex(loud) + 1];
}

function add(into: Float32Array, sound: Float32Array, at: number, factor: number): void {
  for (let i = 0; i < sound.length && at + i < into.length; i++) {
    into[at + i] = (into[at + i] ?? 0) + factor * (sound[i] ?? 0);
  }
}

/**
 * The talk as sound. Speech is brought to -24 dB of full scale, so a noise's `snrDb` means the
 * same for every voice.
 * @throws Error when two utterances overlap: no test means that by accident.
 */
export async function buildTimeline(talk: Talk): Promise<Sound> {
  const rate = talk.rate ?? SPEECH_RATE;
  const sample = (ms: number): number => Math.round((ms * rate) / 1000);
  const clips: { sound: Float32Array; spoken: Spoken }[] = [];
  for (const one of talk.utterances.toSorted((a, b) => a.atMs - b.atMs)) {
    const raw = await speak(one.text, one.voice, { stretch: one.stretch ?? 1 });
    const [first, last] = bounds(raw);
    const level = amplitude(SPEECH_DBFS + (one.gainDb ?? 0)) / rms(raw.subarray(first, last));
    const ms = (samples: number): number => one.atMs + (samples * 1000) / SPEECH_RATE;
    const before = clips.at(-1)?.spoken;
    if (before !== undefined && before.endMs > ms(first)) {
      throw new Error(`"${one.text}" begins before "${before.text}" has ended`);
    }
    clips.push({
      sound: resample(raw, SPEECH_RATE, rate).map((value) => value * level),
      spoken: { ...one, startMs: ms(first), endMs: ms(last) },
    });
  }
  const endMs = (clips.at(-1)?.spoken.endMs ?? 0) + (talk.tailMs ?? TAIL_MS);
  const pcm = hiss(sample(endMs), 1).map((value) => value * amplitude(ROOM_DBFS));
  for (const { sound, spoken } of clips) add(pcm, sound, sample(spoken.atMs), 1);
  for (const { kind, snrDb, seed, fromMs = 0, toMs = endMs } of talk.noises ?? []) {
    const length = sample(Math.min(toMs, endMs) - fromMs);
    const make = { suction, handpiece, hiss: (n: number, _: number, s: number) => hiss(n, s) };
    add(pcm, make[kind](length, rate, seed), sample(fromMs), amplitude(SPEECH_DBFS - snrDb));
  }
  return { pcm, rate, spoken: clips.map(({ spoken }) => spoken) };
}

/** Writes the talk as a mono 16-bit PCM WAV file at `path` and says when each thing is spoken. */
export async function writeTimeline(path: string, talk: Talk): Promise<readonly Spoken[]> {
  const { pcm, rate, spoken } = await buildTimeline(talk);
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, encodeWav({ pcm, rate }));
  return spoken;
}

/** What is said, without saying when. */
export type Line = Omit<Utterance, 'atMs'> & {
  /** Quiet before this line, instead of the talk's usual gap. */
  readonly gapMs?: number;
};

/**
 * Puts `lines` one after another: the first at `startMs`, each next `gapMs` after the one before
 * has ended.
 */
export async function oneAfterAnother(
  lines: readonly Line[],
  { startMs = 1_000, gapMs = 1_500 }: { readonly startMs?: number; readonly gapMs?: number } = {},
): Promise<readonly Utterance[]> {
  let atMs = startMs;
  const utterances: Utterance[] = [];
  for (const [i, { gapMs: own, ...line }] of lines.entries()) {
    if (i > 0) atMs += own ?? gapMs;
    utterances.push({ ...line, atMs });
    const { length } = await speak(line.text, line.voice, { stretch: line.stretch ?? 1 });
    atMs += (length * 1000) / SPEECH_RATE;
  }
  return utterances;
}
