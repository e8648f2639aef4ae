/** The built-in recogniser in Node, with the weights that the page uses. */
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';

/** Opens the engine. */
export async function openNeuralRecogniser(): Promise<Recogniser> {
  return createNeuralRecogniser(await loadNeuralWeights());
}
