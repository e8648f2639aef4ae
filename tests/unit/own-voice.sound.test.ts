/** The ear does not obey the voice: every fourteenth clip of the catalogue, played straight into it. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readWav } from '../../assistant/cli/wav.ts';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { Network } from '../../assistant/ear/neural/network.ts';
import { type Recogniser, SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { wholeGrammar } from '../../prompts/phrases/index.ts';
import { renderClips } from '../../prompts/render/clips.ts';
import { openNeuralRecogniser } from '../ear/neural.ts';
import { speak } from '../speech/index.ts';
import { amplitude, rms, suction } from '../speech/noise.ts';

let recogniser: Recogniser;
beforeAll(async () => {
  recogniser = await openNeuralRecogniser();
});
afterAll(() => recogniser.close());

/** What is heard of a sound while `call` is being said, all phrases active. */
async function heardDuring(call: string, pcm: Float32Array): Promise<string | null> {
  const { callSign, stopPhrases } = ATTENTION;
  await recogniser.load(heldGrammar(wholeGrammar(), 'guarded', callSign, stopPhrases, [call]));
  return (await recogniser.hear(pcm))?.phrase ?? null;
}

const isCommand = (phrase: string | null): boolean =>
  phrase !== null &&
  (phrase.startsWith(ATTENTION.callSign) || ATTENTION.stopPhrases.some((stop) => stop === phrase));

test('no clip played into the microphone at full level is heard as a command', async () => {
  const folder = fileURLToPath(new URL('../../.cache/clips/', import.meta.url));
  const { manifest } = await renderClips(allPieces(), folder);
  const obeyed: string[] = [];
  let own = 0;
  const clips = Object.entries(manifest.clips).filter((_, index) => index % 14 === 0);
  for (const [piece, { file }] of clips) {
    const phrase = await heardDuring(piece, readWav(await readFile(folder + file)));
    if (isCommand(phrase)) obeyed.push(`${piece} -> ${String(phrase)}`);
    else if (phrase !== null) own += 1;
  }
  expect(obeyed).toEqual([]);
  // Heard as itself, not merely as nothing: the words of the call are what holds it off.
  expect(own / clips.length).toBeGreaterThan(0.9);
});

test('a person who says the words of the call after the call sign is obeyed', async () => {
  for (const [call, words] of [
    ['Cleaner on, outside the mouth.', 'cleaner on'],
    ['Mix now? Yes or no.', 'yes'],
  ] as const) {
    const said = await speak(`lantern, ${words}`, 'americanWoman');
    expect(await heardDuring(call, said)).toBe(`lantern ${words}`);
  }
});

test('a long call that comes back is looked at once, though it is unclear', async () => {
  const call =
    'Case open. This supports a licensed clinician. It does not replace judgement, the instructions for use, or local rules.';
  const said = await speak(call, 'britishWoman');
  const noise = suction(said.length, SAMPLE_RATE, 7);
  const level = (rms(said) / rms(noise)) * amplitude(-10);
  const encode = vi.spyOn(Network.prototype, 'encode');
  try {
    const phrase = await heardDuring(
      call,
      said.map((sample, at) => sample + (noise[at] ?? 0) * level),
    );
    expect(phrase).toContain('it does not replace judgement');
    // Other speech that is as unclear is heard in four views (docs/hearing.md).
    expect(encode).toHaveBeenCalledTimes(1);
  } finally {
    encode.mockRestore();
  }
});
