/**
 * A wake word for practices that hold their own access key, through @picovoice/porcupine-web.
 * The engine goes online to check the key, so it is never the default; its code is fetched only
 * when a practice has set it up.
 */
import type { BuiltInKeyword, PorcupineKeyword, PorcupineWorker } from '@picovoice/porcupine-web';
import type { Pcm } from '../port.ts';
import type { EarTrouble } from '../trouble.ts';
import { porcupineTrouble } from './porcupine-trouble.ts';
import type { WakeHandlers, WakeWord } from './port.ts';

/** What the practice gives, kept in the browser's database and never in a record. */
export interface PorcupineSettings {
  readonly accessKey: string;
  /** The engine's model file (.pv). */
  readonly model: Uint8Array;
  readonly keyword:
    | { readonly kind: 'builtin'; readonly name: string }
    | { readonly kind: 'file'; readonly name: string; readonly bytes: Uint8Array };
  /** 0 (misses more) to 1 (more false alarms); the engine's own choice is 0.5. */
  readonly sensitivity: number;
}

export type WakeWordOpened =
  | { readonly kind: 'open'; readonly wakeWord: WakeWord }
  | { readonly kind: 'failed'; readonly trouble: EarTrouble };

/** Names of the keywords that come with the engine. */
export async function builtinKeywords(): Promise<readonly string[]> {
  const engine = await import('@picovoice/porcupine-web');
  return Object.values(engine.BuiltInKeyword);
}

/** Opens the engine; what goes wrong comes back as a trouble, never as a rejection. */
export async function openPorcupine(
  settings: PorcupineSettings,
  handlers: WakeHandlers,
): Promise<WakeWordOpened> {
  const missing = missingPart(settings);
  if (missing) return { kind: 'failed', trouble: missing };
  try {
    const engine = await import('@picovoice/porcupine-web');
    const keyword = keywordOf(settings, Object.values(engine.BuiltInKeyword));
    if (!keyword) return { kind: 'failed', trouble: unknownKeyword(settings.keyword.name) };
    const worker = await engine.PorcupineWorker.create(
      settings.accessKey.trim(),
      keyword,
      () => handlers.onWake(),
      // Written anew each time: a changed model file must not be hidden by the stored one.
      { base64: toBase64(settings.model), forceWrite: true },
      { processErrorCallback: (error) => handlers.onTrouble(troubleOf(error)) },
    );
    return { kind: 'open', wakeWord: new PorcupineWakeWord(worker, settings.keyword.name) };
  } catch (error) {
    return { kind: 'failed', trouble: troubleOf(error) };
  }
}

class PorcupineWakeWord implements WakeWord {
  readonly words: readonly string[];
  readonly #worker: PorcupineWorker;
  #frame: Int16Array;
  #filled = 0;

  constructor(worker: PorcupineWorker, word: string) {
    this.#worker = worker;
    this.words = [word];
    this.#frame = new Int16Array(worker.frameLength);
  }

  push(frame: Pcm): void {
    for (const sample of frame) {
      this.#frame[this.#filled] = Math.round(Math.max(-1, Math.min(1, sample)) * 32_767);
      this.#filled += 1;
      if (this.#filled < this.#frame.length) continue;
      this.#worker.process(this.#frame);
      this.#frame = new Int16Array(this.#frame.length);
      this.#filled = 0;
    }
  }

  async close(): Promise<void> {
    await this.#worker.release();
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

function unknownKeyword(name: string): EarTrouble {
  return {
    kind: 'wake word',
    sentence: `The wake-word engine has no built-in keyword "${name}".`,
    remedy: 'Choose one from the list, or give a keyword file. The call sign works meanwhile.',
    detail: '',
  };
}

function keywordOf(
  { keyword, sensitivity }: PorcupineSettings,
  builtins: readonly BuiltInKeyword[],
): PorcupineKeyword | null {
  if (keyword.kind === 'file')
    return { base64: toBase64(keyword.bytes), label: keyword.name, sensitivity, forceWrite: true };
  const name = keyword.name.trim().toLowerCase();
  const builtin = builtins.find((known) => known.toLowerCase() === name);
  return builtin === undefined ? null : { builtin, sensitivity };
}

function troubleOf(error: unknown): EarTrouble {
  const status =
    error instanceof Error && 'status' in error && typeof error.status === 'number'
      ? error.status
      : null;
  const message = error instanceof Error ? error.message : String(error);
  return porcupineTrouble({ status, message, online: navigator.onLine });
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  // In pieces: a call takes no more than some ten thousand arguments.
  for (let at = 0; at < bytes.length; at += 8_192)
    text += String.fromCharCode(...bytes.subarray(at, at + 8_192));
  return btoa(text);
}
