/** The lines of both appointments with the grammar of their moment, and how they sound in a surgery. */
import { live } from '../../machines/conduct/index.ts';
import { matches, parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';
import { grammarFor } from '../../prompts/phrases/index.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import { Talk } from '../chair/talk.ts';
import { speak, type VoiceName } from '../speech/index.ts';
import { amplitude, handpiece, hiss, rms, suction } from '../speech/noise.ts';

const RATE = 16_000;
/** Speech level and a quiet room's hiss, decibels of full scale. */
const SPEECH_DBFS = -24;
const ROOM_DBFS = -72;

/** One line of an appointment. */
export interface StateLine {
  readonly words: string;
  /** JSGF text whose rule `<phrase>` is what may be said at that moment. */
  readonly phrases: string;
}

/** Walks a talk without sound and keeps what may be said at each line. */
class Walk extends Talk {
  readonly found: StateLine[] = [];
  #atMs = 14_000;

  override get nowMs(): number {
    return this.#atMs;
  }

  protected override async utter(words: string): Promise<number> {
    const { state } = this.chair;
    this.found.push({ words, phrases: grammarFor(live(state), Object.keys(state.units)) });
    this.#atMs += 3_000;
    return this.#atMs;
  }

  protected override async listen(): Promise<void> {
    this.#atMs += 500;
  }

  override async until(ms: number): Promise<void> {
    this.#atMs = Math.max(this.#atMs, ms + 600);
  }
}

/** The lines of both appointments, each once in each grammar. */
export async function stateLines(): Promise<readonly StateLine[]> {
  const talks = [
    [new Walk(ZIRCONIA_CASE), seatZirconia],
    [new Walk(DISILICATE_CASE), seatDisilicate],
  ] as const;
  for (const [walk, seat] of talks) await seat(walk);
  const lines = talks.flatMap(([walk]) => walk.found);
  return [...new Map(lines.map((line) => [line.words + line.phrases, line])).values()];
}

/** Whether words, the call sign left out, mean something at the moment of a line. */
export const isInTurn = ({ phrases }: StateLine, words: string): boolean =>
  matches(new WordAutomaton(parseJsgf(phrases)), words);

/**
 * What might be said out of turn at a line's moment: words of the other lines, the `turn`-th of them and
 * on, until some mean nothing there; none of them that stop.
 */
export function outOfTurn(line: StateLine, lines: readonly StateLine[], turn: number): string {
  for (let step = 0; step < lines.length; step++) {
    const words = lines[(turn + step) % lines.length]?.words ?? '';
    if (!isInTurn(line, words)) return words;
  }
  throw new Error('every line means something at that moment');
}

/** What else sounds. */
export interface Room {
  readonly noise: 'suction' | 'handpiece' | null;
  /** Speech less noise, by their root mean squares. */
  readonly decibels: number;
}

/** A mask: 8 dB off above 2 kHz, one pole; from memory, masks take 4 to 12 there. */
function muffled(pcm: Float32Array): Float32Array {
  const share = 1 - Math.exp((-2 * Math.PI * 2_000) / RATE);
  let low = 0;
  return pcm.map((sample) => {
    low += share * (sample - low);
    return low + amplitude(-8) * (sample - low);
  });
}

/** The room and what else sounds in it, `length` samples. */
function roomSound(length: number, { noise, decibels }: Room, seed: number): Float32Array {
  const sound = hiss(length, seed).map((sample) => sample * amplitude(ROOM_DBFS));
  const make = { suction, handpiece };
  const disturbing = noise === null ? null : make[noise](length, RATE, seed);
  return sound.map(
    (sample, index) => sample + (disturbing?.[index] ?? 0) * amplitude(SPEECH_DBFS - decibels),
  );
}

/** `seconds` of a room in which nobody speaks, as loud as if somebody did. */
export const noiseInRoom = (seconds: number, room: Room, seed: number): Float32Array =>
  roomSound(Math.round(seconds * RATE), room, seed);

/** The room before and after what is said, seconds. */
export interface Around {
  readonly before: number;
  readonly after: number;
}

/** The padding that voice activity leaves around a segment. */
const PADDING: Around = { before: 0.32, after: 0.1 };

/** `text` through a mask in a room. */
export async function saidInRoom(
  text: string,
  voice: VoiceName,
  room: Room,
  seed: number,
  around = PADDING,
): Promise<Float32Array> {
  const said = muffled(await speak(text, voice));
  const peak = said.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const isLoud = (sample: number): boolean => Math.abs(sample) >= peak / 100;
  const speech = said.subarray(Math.max(0, said.findIndex(isLoud)), said.findLastIndex(isLoud) + 1);
  const level = amplitude(SPEECH_DBFS) / rms(speech);
  const before = Math.round(around.before * RATE);
  const after = Math.round(around.after * RATE);
  const length = before + speech.length + after;
  return roomSound(length, room, seed).map(
    (sample, index) => sample + (speech[index - before] ?? 0) * level,
  );
}
