/**
 * Which lines of both appointments a voice is not heard in, clean, after the call sign, each in the
 * grammar of its moment: `npx tsx tests/bench/voices.ts britishMan scottishWoman`; all voices when
 * none is named. And how long decoding took, in milliseconds by the clock: run it alone.
 */
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { stateLines } from './surgery.ts';
import { speak, type VoiceName, VOICES } from '../speech/index.ts';
const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
const { callSign, stopPhrases } = ATTENTION;
const lines = await stateLines();
const named = process.argv.slice(2);
const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
const meaning = (phrase: string): string =>
  JSON.stringify(commandFor(phrase.replace(`${callSign} `, '')));

for (const voice of voices.filter((name) => named.length === 0 || named.includes(name))) {
  const missed: string[] = [];
  const tookMs: number[] = [];
  for (const { words, phrases } of lines) {
    await recogniser.load(heldGrammar(phrases, 'addressed', callSign, stopPhrases));
    const sound = await speak(`${callSign}, ${words}`, voice);
    const from = performance.now();
    const heard = await recogniser.hear(sound);
    if (words.split(' ').length <= 5) tookMs.push(performance.now() - from);
    const isRight = heard !== null && meaning(heard.phrase) === meaning(words);
    if (isRight && heard.sure) continue;
    const score = heard === null ? '' : ` ${heard.score.toFixed(2)}`;
    missed.push(`${words} -> ${heard?.phrase ?? 'nothing'}${score}`);
  }
  const right = lines.length - missed.length;
  const sorted = tookMs.toSorted((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor(sorted.length * share)] ?? 0).toFixed(0);
  process.stdout.write(
    `${voice}: ${right} of ${lines.length}; up to five words in ${at(0.5)} ms, 95th percentile ${at(0.95)}; ${missed.join('; ')}\n`,
  );
}
