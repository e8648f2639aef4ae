/**
 * A wake word for practices that hold their own access key, through @picovoice/porcupine-web in a
 * worker of its own. The engine goes online to check the key, so it is never the default; its code
 * is fetched only when a practice has set it up.
 */
import type { Pcm } from '../port.ts';
import type { EarTrouble } from '../trouble.ts';
import { porcupineTrouble } from './porcupine-trouble.ts';
import type { WakeHandlers, WakeWord } from './port.ts';
import {
  type PorcupineSettings,
  type WakeReply,
  wakeReply,
  type WakeRequest,
} from './wake-protocol.ts';

type WakeWordOpened =
  | { readonly kind: 'open'; readonly wakeWord: WakeWord }
  | { readonly kind: 'failed'; readonly trouble: EarTrouble };

/** A key is checked over the network; this long is more than a slow one takes, ms. */
const OPEN_MS = 20_000;

/** Opens the engine; what goes wrong comes back as a trouble, never as a rejection. */
export async function openPorcupine(
  settings: PorcupineSettings,
  handlers: WakeHandlers,
): Promise<WakeWordOpened> {
  const missing = missingPart(settings);
  if (missing) return { kind: 'failed', trouble: missing };
  const worker = new Worker(new URL('./wake-word.worker.ts', import.meta.url), {
    type: 'module',
    name: 'wake-word',
  });
  const opened = await answerTo(worker, settings);
  if (opened.kind === 'opened') {
    const { frameLength } = opened;
    const { name } = settings.keyword;
    return { kind: 'open', wakeWord: new PorcupineWakeWord(worker, name, frameLength, handlers) };
  }
  worker.terminate();
  return {
    kind: 'failed',
    trouble:
      opened.kind === 'unknown keyword'
        ? unknownKeyword(settings.keyword.name, opened.builtins)
        : troubleOf(opened),
  };
}

type Opening = Extract<WakeReply, { kind: 'opened' | 'unknown keyword' | 'failed' }>;

/** Sends the settings; resolves with what became of the opening. */
function answerTo(worker: Worker, settings: PorcupineSettings): Promise<Opening> {
  return new Promise((resolve) => {
    const failed = (message: string): void => resolve({ kind: 'failed', status: null, message });
    setTimeout(() => failed('activation: the key check did not answer'), OPEN_MS);
    worker.addEventListener('error', ({ message }) => failed(message || 'failed to start'));
    worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      const said = wakeReply.safeParse(data);
      if (!said.success) failed(`unreadable answer: ${said.error.message}`);
      else if (said.data.kind === 'opened' || said.data.kind === 'failed') resolve(said.data);
      else if (said.data.kind === 'unknown keyword') resolve(said.data);
    });
    worker.postMessage({ kind: 'open', settings } satisfies WakeRequest, []);
  });
}

class PorcupineWakeWord implements WakeWord {
  readonly words: readonly string[];
  readonly listens = true;
  readonly #worker: Worker;
  readonly #length: number;
  #frame: Int16Array<ArrayBuffer>;
  #filled = 0;

  constructor(worker: Worker, word: string, frameLength: number, handlers: WakeHandlers) {
    this.words = [word];
    this.#worker = worker;
    this.#length = frameLength;
    this.#frame = new Int16Array(frameLength);
    worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      const said = wakeReply.safeParse(data);
      if (!said.success) return;
      if (said.data.kind === 'wake') handlers.onWake();
      if (said.data.kind === 'trouble') handlers.onTrouble(troubleOf(said.data));
    });
  }

  push(frame: Pcm): void {
    for (const sample of frame) {
      this.#frame[this.#filled] = Math.round(Math.max(-1, Math.min(1, sample)) * 32_767);
      this.#filled += 1;
      if (this.#filled < this.#length) continue;
      const request: WakeRequest = { kind: 'frame', pcm: this.#frame };
      this.#worker.postMessage(request, [this.#frame.buffer]);
      this.#frame = new Int16Array(this.#length);
      this.#filled = 0;
    }
  }

  /** Frees the engine, as far as it still answers. */
  async close(): Promise<void> {
    const closed = new Promise<void>((resolve) => {
      setTimeout(resolve, 1_000);
      this.#worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
        const said = wakeReply.safeParse(data);
        if (said.success && said.data.kind === 'closed') resolve();
      });
    });
    this.#worker.postMessage({ kind: 'close' } satisfies WakeRequest, []);
    await closed;
    this.#worker.terminate();
  }
}

function missingPart({ accessKey, model, keyword }: PorcupineSettings): EarTrouble | null {
  const part =
    accessKey.trim() === ''
      ? 'access key'
      : model.length === 0
        ? 'model file'
        : keyword.kind === 'file' && keyword.bytes.length === 0
          ? 'keyword file'
          : null;
  if (part === null) return null;
  return {
    kind: 'wake word',
    sentence: `The wake-word engine has no ${part}.`,
    remedy: 'Give it in the settings. The call sign works meanwhile.',
    detail: '',
  };
}

function unknownKeyword(name: string, builtins: readonly string[]): EarTrouble {
  return {
    kind: 'wake word',
    sentence: `The wake-word engine has no built-in keyword "${name}".`,
    remedy: `It has ${builtins.join(', ')}; or give a keyword file. The call sign works meanwhile.`,
    detail: '',
  };
}

const troubleOf = (failure: {
  readonly status: number | null;
  readonly message: string;
}): EarTrouble => porcupineTrouble({ ...failure, online: navigator.onLine });
