import type { Recogniser } from '../port.ts';

/** A file's bytes, or the URL to fetch it from. */
export type Weights = Uint8Array | URL | string;

/** What the neural recogniser must be given; it knows no path and no package of its own. */
export interface NeuralOptions {
  /** Weights of the encoder fitted to rooms (`fit/fit.ts`), ONNX. */
  readonly encoder: Weights;
  /** The encoder as the package has it, which hears some of what the fitted one does not, ONNX. */
  readonly givenEncoder: Weights;
  /** Merged decoder weights (first step and cached steps in one graph), ONNX. */
  readonly decoder: Weights;
  /**
   * Where the WebAssembly runtime's files lie: its `.wasm` as bytes or URL, and, when the page
   * needs threads from a bundle, its `.mjs` as URL. Left out, the runtime looks beside itself.
   */
  readonly wasm?: { readonly wasm?: Weights; readonly mjs?: URL | string };
  /** WebAssembly threads; more than 1 needs a cross-origin isolated page. Default 1. */
  readonly threads?: number;
  /** Confidence below which nothing is heard, 0..1. Default: the measured one. */
  readonly threshold?: number;
}

/** Shape of `createNeuralRecogniser` in `./index.ts`. */
export type CreateNeuralRecogniser = (options: NeuralOptions) => Promise<Recogniser>;
