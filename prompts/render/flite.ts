/**
 * Speech synthesis at build time: the flite command line, compiled to WASI, run under `node:wasi`.
 * Its licence (BSD-like, in the npm package's COPYING) lets its output be shipped; the
 * synthesiser itself never is. Offline: the voices are inside the wasm file.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WASI } from 'node:wasi';
import { flitePath } from './flite-path.ts';
import { lexiconText } from './lexicon.ts';
import { decodeWav } from './wav.ts';

/** Every voice in this build, clearest first. All give 16 kHz but `kal`, which gives 8 kHz. */
export const FLITE_VOICES = ['slt', 'rms', 'awb', 'kal16', 'kal'] as const;

/** A voice of this build: `slt` a woman's; `rms`, `awb`, `kal16` and `kal` men's. */
export type FliteVoice = (typeof FLITE_VOICES)[number];

/** Sound out of the synthesiser: mono samples in -1..1 and their rate in hertz. */
export interface Synthesised {
  readonly pcm: Float32Array;
  readonly rate: number;
}

/** How to say it. */
export interface FliteOptions {
  /** 1 is the voice's own pace, 1.2 is a fifth slower. */
  readonly stretch?: number;
}

let compiled: Promise<WebAssembly.Module> | undefined;

function fliteModule(): Promise<WebAssembly.Module> {
  compiled ??= readFile(flitePath).then((bytes) => WebAssembly.compile(new Uint8Array(bytes)));
  return compiled;
}

/**
 * Says `text` with `voice`; trade words are said as `lexicon.ts` spells them.
 * About 60 ms a clip once the module is compiled (half a second, once).
 * @throws Error when the synthesiser fails or gives no sound.
 */
export async function synthesise(
  text: string,
  voice: FliteVoice = 'slt',
  options: FliteOptions = {},
): Promise<Synthesised> {
  const folder = await mkdtemp(join(tmpdir(), 'flite-'));
  try {
    await writeFile(join(folder, 'lexicon'), lexiconText());
    const stretch = options.stretch ?? 1;
    const wasi = new WASI({
      version: 'preview1',
      args: [
        'flite',
        '-voice',
        voice,
        '-add_lex',
        '/work/lexicon',
        '--setf',
        `duration_stretch=${stretch}`,
        '-t',
        text,
        '-o',
        '/work/out.wav',
      ],
      preopens: { '/work': folder },
      returnOnExit: true,
    });
    const instance = await WebAssembly.instantiate(await fliteModule(), {
      wasi_snapshot_preview1: wasi.wasiImport,
    });
    // The types say `void` for Node 20.19, which does return the exit code.
    const code: unknown = wasi.start(instance);
    if (typeof code === 'number' && code !== 0) throw new Error(`flite ended with ${code}`);
    const wav = decodeWav(await readFile(join(folder, 'out.wav')));
    if (wav.pcm.length === 0) throw new Error(`flite gave no sound for "${text}"`);
    return wav;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
