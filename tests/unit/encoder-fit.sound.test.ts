/** What the fit of the encoder is for, heard in voices and in a noise that it was not learnt from. */
import { expect, it } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { createNeuralRecogniser, type NeuralOptions } from '../../assistant/ear/neural/index.ts';
import { loadGivenEncoder, loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { type Room, saidInRoom, stateLines } from '../bench/surgery.ts';
import type { VoiceName } from '../speech/index.ts';

const ROOM: Room = { noise: 'handpiece', decibels: 5 };
/** Chosen among the lines that the package's own encoder does not hear in voices not learnt from. */
const LINES: readonly (readonly [words: string, voice: VoiceName, seed: number])[] = [
  ['crown out', 'scottishMan', 5],
  ['lots are logged', 'britishMan', 16],
  ['floss is through', 'receivedWoman', 30],
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

it('beside a handpiece, more is heard with the fitted encoder than without it', async () => {
  const weights = await loadNeuralWeights();
  const without = await heardIn({ ...weights, encoder: await loadGivenEncoder() });
  const withIt = await heardIn(weights);
  expect(withIt.length).toBeGreaterThan(1);
  expect(withIt.length).toBeGreaterThan(without.length);
});
