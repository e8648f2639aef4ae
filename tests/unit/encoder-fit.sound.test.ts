/**
 * The fit of the encoder: that the runtime gives what was learnt, and what it is for, heard in voices
 * and in a noise that it was not learnt from.
 */
import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { createNeuralRecogniser, type NeuralOptions } from '../../assistant/ear/neural/index.ts';
import { Network } from '../../assistant/ear/neural/network.ts';
import { loadGivenEncoder, loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { type Room, saidInRoom, stateLines } from '../bench/surgery.ts';
import { CHECKED } from '../bench/fitted-voices.ts';
import { speak, type VoiceName } from '../speech/index.ts';

/** Every so many numbers of what the encoder gave in the learning program. */
const Learnt = z.object({ every: z.number(), values: z.array(z.number()) });

const ROOM: Room = { noise: 'handpiece', decibels: 5 };
/** Chosen among the lines in which the package's own encoder hears nothing, in voices not learnt from. */
const LINES: readonly (readonly [words: string, voice: VoiceName, seed: number])[] = [
  ['pumice is on', 'britishMan', 31],
  ['cement set', 'americanMan', 55],
];
const { callSign, stopPhrases } = ATTENTION;

const meaning = (phrase: string): string =>
  JSON.stringify(commandFor(phrase.replace(`${callSign} `, '')));

/** The lines that were heard, for sure and as meant. */
async function heardIn(weights: NeuralOptions): Promise<readonly string[]> {
  const recogniser = await createNeuralRecogniser(weights);
  const right: string[] = [];
  const lines = await stateLines();
  for (const [words, voice, seed] of LINES) {
    const phrases = lines.findLast((line) => line.words === words)?.phrases;
    if (phrases === undefined) throw new Error(`no appointment has the line ${words}`);
    await recogniser.load(heldGrammar(phrases, 'open', callSign, stopPhrases));
    const sound = await saidInRoom(`${callSign}, ${words}`, voice, ROOM, seed);
    const heard = await recogniser.hear(sound);
    if (heard?.sure === true && meaning(heard.phrase) === meaning(words)) right.push(words);
  }
  await recogniser.close();
  return right;
}

/** How far what the runtime gives is off what was learnt, as a share of it. */
async function error(weights: NeuralOptions): Promise<number> {
  const file = await readFile(new URL('encoder-fit.json', import.meta.url), 'utf8');
  const { every, values } = Learnt.parse(JSON.parse(file));
  const network = await Network.load(weights);
  const { hidden } = await network.encode(await speak(CHECKED.words, CHECKED.voice));
  await network.close();
  const given = Array.from(hidden.data, Number).filter((_, at) => at % every === 0);
  expect(given).toHaveLength(values.length);
  const size = (numbers: readonly number[]): number => Math.hypot(...numbers);
  return size(values.map((value, at) => value - (given[at] ?? 0))) / size(values);
}

it('the runtime gives what was learnt, but for the rounding of what flows through it', async () => {
  const weights = await loadNeuralWeights();
  expect(await error(weights)).toBeLessThan(0.07);
  expect(await error({ ...weights, encoder: await loadGivenEncoder() })).toBeGreaterThan(0.2);
});

it('beside a handpiece, more is heard with the fitted encoder than without it', async () => {
  const weights = await loadNeuralWeights();
  expect(await heardIn(weights)).toEqual(LINES.map(([words]) => words));
  const without = await heardIn({ ...weights, encoder: await loadGivenEncoder() });
  expect(without).toEqual([]);
});
