/** Wake words: the embedded call sign, and the keyed engine for practices that have a key. */
import { embeddedCallSign } from './embedded.ts';
import { openPorcupine } from './porcupine.ts';
import type { WakeHandlers, WakeWord } from './port.ts';
import type { PorcupineSettings } from './wake-protocol.ts';

export type { PorcupineSettings } from './wake-protocol.ts';
export type { WakeHandlers, WakeWord } from './port.ts';

/**
 * Opens the practice's choice. Where the keyed engine fails, its trouble is told and the
 * embedded call sign is what comes back, so hearing never waits for a key.
 * @throws CallSignError when the call sign cannot be used.
 */
export async function openWakeWord(
  callSign: string,
  porcupine: PorcupineSettings | null,
  handlers: WakeHandlers,
): Promise<WakeWord> {
  const embedded = embeddedCallSign(callSign);
  if (porcupine === null) return embedded;
  const opened = await openPorcupine(porcupine, handlers);
  if (opened.kind === 'open') return opened.wakeWord;
  handlers.onTrouble(opened.trouble);
  return embedded;
}
