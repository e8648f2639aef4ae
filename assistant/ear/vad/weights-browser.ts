/** Where the page finds the speech weights; Node's way is weights-node.ts. */
import { readSpeechWeights, type SpeechWeights } from './speech-network.ts';

/**
 * Fetches the weights from `url` (the page's own address of the ONNX file).
 * @throws Error when there is no such file or it is not the network expected.
 */
export async function fetchSpeechWeights(url: string): Promise<SpeechWeights> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`speech weights: ${answer.status} ${answer.statusText}`);
  return readSpeechWeights(new Uint8Array(await answer.arrayBuffer()));
}
