import { chromium, type BrowserContext } from 'playwright-core';
import { requireChromium } from './chromium.ts';

/** How the browser is started. */
export interface BrowserOptions {
  /** Its profile: started again on the same folder it finds what the page had stored. */
  readonly profile: string;
  /** WAV file that the microphone hears, from its start each time the page opens the microphone. */
  readonly sound: string;
  readonly viewport: { readonly width: number; readonly height: number };
}

/**
 * Starts Debian's Chromium, headless, with a microphone that is a file and is allowed without
 * asking. No name but the page's own host resolves, so nothing outside can be reached, worker or
 * no worker.
 */
export function launch({ profile, sound, viewport }: BrowserOptions): Promise<BrowserContext> {
  return chromium.launchPersistentContext(profile, {
    executablePath: requireChromium(),
    headless: true,
    viewport,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
      '--use-fake-device-for-media-stream',
      '--use-fake-ui-for-media-stream',
      `--use-file-for-fake-audio-capture=${sound}`,
    ],
  });
}
