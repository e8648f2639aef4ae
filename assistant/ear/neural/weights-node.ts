/** Where Node finds the neural recogniser's weights and its WebAssembly runtime. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { withTokens } from './few-tokens.ts';
import { fitEncoder } from './fit/fit.ts';
import type { NeuralOptions } from './options.ts';
import { KEPT } from './vocabulary.ts';
import { withWholeConvolutions } from './whole-convolutions.ts';
import { withWholeScores } from './whole-scores.ts';

/** By path, as the page's assets are: the package's `exports` name no weight file. */
const MODEL = new URL(
  '../../../node_modules/@usefulsensors/moonshine-js/dist/model/tiny/quantized/',
  import.meta.url,
);
const ENCODER = new URL('encoder_model.onnx', MODEL);

/** The package's encoder as it is. @throws Error when the package is not installed. */
export const loadGivenEncoder = (): Promise<Uint8Array> => readFile(ENCODER);

/** The package's encoder, its convolutions in whole numbers. @throws Error when its file is missing. */
export const loadGivenInWholeNumbers = async (): Promise<Uint8Array> =>
  withWholeConvolutions(Uint8Array.from(await loadGivenEncoder()));

/** The encoder fitted to rooms, made of the package's. @throws Error when either file is missing. */
export async function loadFittedEncoder(): Promise<Uint8Array> {
  const fit = await readFile(new URL('fit/encoder.fit', import.meta.url));
  return withWholeConvolutions(fitEncoder(await loadGivenEncoder(), fit));
}

/** The package's decoder as it is. @throws Error when the package is not installed. */
export const loadGivenDecoder = (): Promise<Uint8Array> =>
  readFile(new URL('decoder_model_merged.onnx', MODEL));

/** The decoder with the tokens kept, made of the package's. @throws Error when its file is missing. */
export const loadTrimmedDecoder = async (): Promise<Uint8Array> =>
  withWholeScores(withTokens(await loadGivenDecoder(), KEPT));

/** @throws Error when the packages or their files are not installed. */
export async function loadNeuralWeights(): Promise<NeuralOptions> {
  const { resolve } = createRequire(import.meta.url);
  const encoder = await loadFittedEncoder();
  const givenEncoder = await loadGivenInWholeNumbers();
  const decoder = await loadTrimmedDecoder();
  const wasm = await readFile(resolve('onnxruntime-web/ort-wasm-simd-threaded.wasm'));
  return { encoder, givenEncoder, decoder, wasm: { wasm } };
}
