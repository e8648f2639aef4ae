/** The built-in recogniser in Node, its weights read from the npm package. */
import { readFile } from 'node:fs/promises';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';

/** Opens the engine with the weights the page uses. */
export async function openNeuralRecogniser(): Promise<Recogniser> {
  // By path, as the page's own assets are: the package exports no file of its own.
  const model = new URL(
    '../../node_modules/@usefulsensors/moonshine-js/dist/model/tiny/quantized/',
    import.meta.url,
  );
  const [encoder, decoder] = await Promise.all([
    readFile(new URL('encoder_model.onnx', model)),
    readFile(new URL('decoder_model_merged.onnx', model)),
  ]);
  return createNeuralRecogniser({ encoder, decoder });
}
