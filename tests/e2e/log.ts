/** What stood on the page, and when: every change a person could have read, in order. */
import type { BrowserContext, Page } from 'playwright-core';

/**
 * Where on the page: `step` the heading, `heard` the last words that came in and what became of
 * them, `said` the last call, `alert` a refusal, a question or trouble, `ear` what the ear does.
 */
const PLACES = {
  step: 'h1',
  heard: 'section[aria-label="Listening"] p:has(q)',
  said: '[role="status"]',
  alert: '[role="alert"]',
  ear: 'section[aria-label="Listening"] strong',
} as const;

/** A place on the page that is watched. */
export type Place = keyof typeof PLACES;

/** From `atMs` (`Date.now()` of the page) on, `text` stood at `place`; empty when nothing did. */
export interface Reading {
  readonly atMs: number;
  readonly place: Place;
  readonly text: string;
}

declare global {
  interface Window {
    /** Set by {@link keepLog}. */
    seatcallReadings?: { atMs: number; place: string; text: string }[];
    /** Ends the log. */
    seatcallLookAway?: () => void;
  }
}

/** Makes every page of `context` opened from now on keep a log of its places. */
export function keepLog(context: BrowserContext): Promise<unknown> {
  return context.addInitScript(watch, PLACES);
}

/** Runs in the page, before the page's own scripts; it can't see this module. */
function watch(places: Readonly<Record<string, string>>): void {
  const readings: { atMs: number; place: string; text: string }[] = [];
  const last: Record<string, string> = {};
  window.seatcallReadings = readings;
  const read = (): void => {
    for (const [place, selector] of Object.entries(places)) {
      const text = Array.from(document.querySelectorAll(selector), (element) =>
        (element.textContent ?? '').replaceAll(/\s+/gu, ' ').trim(),
      )
        .filter((part) => part !== '')
        .join(' | ');
      if (text === (last[place] ?? '')) continue;
      last[place] = text;
      readings.push({ atMs: Date.now(), place, text });
    }
  };
  const observer = new MutationObserver(read);
  observer.observe(document, { subtree: true, childList: true, characterData: true });
  window.seatcallLookAway = () => observer.disconnect();
}

const isPlace = (name: string): name is Place => name in PLACES;

/** The log of `page` since it was opened. */
export async function readLog(page: Page): Promise<readonly Reading[]> {
  const raw = await page.evaluate(() => window.seatcallReadings ?? []);
  return raw.flatMap(({ place, ...rest }) => (isPlace(place) ? [{ place, ...rest }] : []));
}

/** A log as text, a reading to a line. */
export const logLines = (log: readonly Reading[]): string =>
  log.map(({ atMs, place, text }) => `${atMs} ${place}: ${text}`).join('\n');

/** Ends the log of `page`: what is measured from here on is the page's alone. */
export function lookAway(page: Page): Promise<void> {
  return page.evaluate(() => window.seatcallLookAway?.());
}
