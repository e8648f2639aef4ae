/** Where Node finds the speech weights; the browser's way is weights-browser.ts. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { readSpeechWeights, type SpeechWeights } from './speech-network.ts';

/** @throws Error when the package or its weights are not installed. */
export async function loadSpeechWeights(): Promise<SpeechWeights> {
  const path = createRequire(import.meta.url).resolve('@ricky0123/vad-web/dist/silero_vad_v6.onnx');
  return readSpeechWeights(await readFile(path));
}
