/**
 * False commands in people's talk: `npx tsx tests/bench/talk.ts FOLDER [--every N]`, on WAV files at
 * 16 kHz of people who do not speak to Seatcall (those of `fit/talk.py`, say). Each goes through voice
 * activity, attention and the recogniser, held to the phrases of one moment of the appointments after
 * another, with the call sign and without one. Prints what was taken, and how much an hour.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readWav } from '../../assistant/cli/wav.ts';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { listenToPcm } from '../../assistant/ear/offline.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { stateLines } from './surgery.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { every: { type: 'string', default: '20' } },
});
const [folder] = positionals;
if (folder === undefined) throw new Error('name the folder of WAV files');
/** A pause before and after each: the lines are cut short. */
const PAUSE = new Float32Array(0.5 * SAMPLE_RATE);
/** Lines of one moment after another, far apart. */
const STRIDE = 7;

const [weights, recogniser, moments] = [
  await loadSpeechWeights(),
  await createNeuralRecogniser(await loadNeuralWeights()),
  await stateLines(),
];
const files = readdirSync(folder).filter((name) => name.endsWith('.wav'));
const chosen = files.filter((_, at) => at % Number(values.every) === 0);
const taken = { without: 0, with: 0 };
const asked = { without: 0, with: 0 };
let samples = 0;
for (const [at, file] of chosen.entries()) {
  const said = readWav(readFileSync(`${folder}/${file}`));
  samples += said.length;
  const pcm = new Float32Array(said.length + 2 * PAUSE.length);
  pcm.set(said, PAUSE.length);
  const phrases = moments[(at * STRIDE) % moments.length]?.phrases ?? '';
  for (const sign of ['without', 'with'] as const) {
    const attention = { callSign: sign === 'with' ? ATTENTION.callSign : null };
    const standing = (): { phrases: string; sounding: [] } => ({ phrases, sounding: [] });
    for await (const one of listenToPcm(pcm, recogniser, { weights, standing, attention })) {
      if (one.kind !== 'command') continue;
      if (one.accepted) taken[sign]++;
      else asked[sign]++;
      const what = `${one.accepted ? 'taken' : 'asked back'} "${one.phrase}" ${one.score?.toFixed(2)}`;
      process.stdout.write(`${file}, ${sign} call sign: ${what}\n`);
    }
  }
}
await recogniser.close();
const hours = samples / SAMPLE_RATE / 3600;
for (const sign of ['without', 'with'] as const)
  process.stdout.write(
    `${sign} call sign: ${taken[sign]} taken, ${asked[sign]} asked back, of ${chosen.length} lines, ` +
      `${(hours * 60).toFixed(1)} min; ${(taken[sign] / hours).toFixed(1)} an hour\n`,
  );
