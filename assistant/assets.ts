/**
 * Addresses of the big files that come whole from npm packages: served by the developing server
 * as they lie, and in the build under `/assets/` with their content's hash in the name, so a
 * browser keeps them for a year and a second start reads none of them from disk twice.
 * Three are made of such files: encoders and decoder of the recogniser (`build/weights-plugin.ts`).
 * Browser only: `?url` means nothing to Node, where adapters read the same files by path.
 */
import encoder from './ear/neural/fit/encoder_fitted.onnx?url';
import givenEncoder from './ear/neural/encoder_given.onnx?url';
import decoder from './ear/neural/decoder_trimmed.onnx?url';
import voiceActivity from '../node_modules/@ricky0123/vad-web/dist/silero_vad_v6.onnx?url';
import runtimeModule from '../node_modules/onnxruntime-web/dist/ort-wasm-simd-threaded.mjs?url';
import runtimeBinary from '../node_modules/onnxruntime-web/dist/ort-wasm-simd-threaded.wasm?url';

/** The neural recogniser's weights: encoders, fitted and as given (8 MB each), and trimmed decoder (16 MB), ONNX. */
export const NEURAL_WEIGHTS = { encoder, givenEncoder, decoder } as const;

/** The voice-activity network's weights (2 MB ONNX). */
export const VOICE_ACTIVITY_WEIGHTS = voiceActivity;

/** What `env.wasm.wasmPaths` of the ONNX runtime is set to, so that it looks nowhere else. */
export const ONNX_RUNTIME = { mjs: runtimeModule, wasm: runtimeBinary } as const;

/** Where the rendered clips lie; a clip's own name comes from the catalogue's manifest. */
export const CLIPS_BASE = `${import.meta.env.BASE_URL}clips/`;
