/**
 * The keyed wake word's engine. It goes online to check the key, which the page itself may not:
 * only this worker is served with leave to (`assistant/build/policy.ts`), and only a practice that
 * set the engine up ever starts it. No sound leaves it but as "it was said".
 */
import { BuiltInKeyword, Porcupine, type PorcupineKeyword } from '@picovoice/porcupine-web';
import type { PorcupineSettings, WakeReply, WakeRequest } from './wake-protocol.ts';

// With options: the page's form of this call, which the DOM types know, wants an origin.
const reply = (message: WakeReply): void => self.postMessage(message, { transfer: [] });

let engine: Porcupine | null = null;

function failureOf(error: unknown): { readonly status: number | null; readonly message: string } {
  const status =
    error instanceof Error && 'status' in error && typeof error.status === 'number'
      ? error.status
      : null;
  return { status, message: error instanceof Error ? error.message : String(error) };
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  // In pieces: a call takes no more than some ten thousand arguments.
  for (let at = 0; at < bytes.length; at += 8_192)
    text += String.fromCharCode(...bytes.subarray(at, at + 8_192));
  return btoa(text);
}

function keywordOf({ keyword, sensitivity }: PorcupineSettings): PorcupineKeyword | null {
  if (keyword.kind === 'file')
    return { base64: toBase64(keyword.bytes), label: keyword.name, sensitivity, forceWrite: true };
  const name = keyword.name.trim().toLowerCase();
  const builtin = Object.values(BuiltInKeyword).find((known) => known.toLowerCase() === name);
  return builtin === undefined ? null : { builtin, sensitivity };
}

async function open(settings: PorcupineSettings): Promise<void> {
  const keyword = keywordOf(settings);
  if (keyword === null) {
    reply({ kind: 'unknown keyword', builtins: Object.values(BuiltInKeyword) });
    return;
  }
  engine = await Porcupine.create(
    settings.accessKey.trim(),
    keyword,
    () => reply({ kind: 'wake' }),
    // Written anew each time: a changed model file must not be hidden by the stored one.
    { base64: toBase64(settings.model), forceWrite: true },
    { processErrorCallback: (error) => reply({ kind: 'trouble', ...failureOf(error) }) },
  );
  reply({ kind: 'opened', frameLength: engine.frameLength });
}

async function answer(request: WakeRequest): Promise<void> {
  switch (request.kind) {
    case 'open':
      return open(request.settings).catch((error: unknown) =>
        reply({ kind: 'failed', ...failureOf(error) }),
      );
    case 'frame':
      return engine?.process(request.pcm);
    case 'close':
    default:
      await engine?.release();
      engine = null;
      reply({ kind: 'closed' });
  }
}

self.addEventListener('message', ({ data }: MessageEvent<WakeRequest>) => {
  void answer(data);
});
