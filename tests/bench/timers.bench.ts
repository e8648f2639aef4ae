/** The voice in real Chromium: what reaches the loudspeaker, and when, in front and hidden. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { clips } from '../../assistant/build/clips-plugin.ts';
import type { Call } from '../../machines/contract/index.ts';
import { requireChromium } from '../e2e/chromium.ts';
import { joinRoom, PLAYED_RATE, played } from '../e2e/room.ts';
import type { VoicePage } from '../e2e/voice-page/page.ts';

declare global {
  // Defined by the page; inside `evaluate` only.
  var voicePage: VoicePage;
}

const root = fileURLToPath(new URL('../../', import.meta.url));
let server: ViteDevServer;
let url: string;
let folder: string;
let browser: Browser | undefined;
let chrome: ChildProcess | undefined;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-voice-'));
  server = await createServer({
    root,
    configFile: false,
    logLevel: 'error',
    cacheDir: join(folder, 'vite'),
    plugins: [clips(join(root, '.cache/clips'))],
    server: { host: '127.0.0.1', port: 0 },
  });
  await server.listen();
  url = `${server.resolvedUrls?.local[0]}tests/e2e/voice-page/index.html`;
});
afterAll(async () => {
  await server.close();
  await rm(folder, { recursive: true });
});
afterEach(async () => {
  await browser?.close();
  const gone = chrome?.exitCode === null ? once(chrome, 'exit') : undefined;
  chrome?.kill();
  await gone;
});

/**
 * Opens the page in a browser started as a person would start it: the usual driver turns off the
 * throttling of hidden pages and tells every page that it is in front.
 */
async function open(): Promise<{ readonly page: Page; readonly context: BrowserContext }> {
  const profile = await mkdtemp(join(folder, 'profile-'));
  const args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run'];
  chrome = spawn(
    requireChromium(),
    [...args, '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    { stdio: 'ignore' },
  );
  const [port] = await expect
    .poll(() => readFile(join(profile, 'DevToolsActivePort'), 'utf8').catch(() => ''), {
      timeout: 20_000,
    })
    .toMatch(/^\d+\n/)
    .then(() => readFile(join(profile, 'DevToolsActivePort'), 'utf8'))
    .then((text) => text.split('\n'));
  browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`, { noDefaults: true });
  const [context] = browser.contexts();
  if (context === undefined) throw new Error('the browser has no profile open');
  await joinRoom(context, {});
  const page = await context.newPage();
  await page.goto(url);
  await page.waitForFunction(() => 'voicePage' in globalThis);
  await page.click('button');
  return { page, context };
}

const MARKS: readonly { readonly inMs: number; readonly call: Call }[] = [
  { inMs: 2_000, call: { id: 'left', step: 'silane', seconds: 30 } },
  { inMs: 6_000, call: { id: 'left', step: 'silane', seconds: 10 } },
  { inMs: 10_000, call: { id: 'time', step: 'silane' } },
  // After this the loudspeaker has rested.
  { inMs: 30_000, call: { id: 'left', step: 'tooth-etch', seconds: 5 } },
];

/** When sound begins after a second of quiet, as `Date.now()`. */
async function onsets(page: Page): Promise<readonly number[]> {
  const { pcm, fromMs } = await played(page);
  const found: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  pcm.forEach((sample, i) => {
    if (Math.abs(sample) < 0.01) return;
    if (i - last > PLAYED_RATE) found.push(fromMs + (i * 1000) / PLAYED_RATE);
    last = i;
  });
  return found;
}

async function latenessOfMarks(page: Page): Promise<readonly number[]> {
  const due = await page.evaluate((marks) => globalThis.voicePage.schedule(marks), MARKS);
  await expect
    .poll(
      () =>
        page.evaluate(() => globalThis.voicePage.log.filter(({ what }) => what === 'end').length),
      { timeout: 60_000, interval: 500 },
    )
    .toBe(MARKS.length);
  const heard = await onsets(page);
  expect(heard.length).toBe(due.length);
  return due.map((dueMs, i) => Math.round((heard[i] ?? Number.NaN) - dueMs));
}

/** The recorder knows the time to some 20 ms. */
const onTime = (lateMs: number): boolean => lateMs > -30 && lateMs < 100;

const report = (where: string, late: readonly number[]): void => {
  process.stdout.write(`timers ${where}: ${late.join(', ')} ms late, budget 100 ms\n`);
};

it('sounds each timer within 100 ms of its due time', async () => {
  const { page } = await open();
  const late = await latenessOfMarks(page);
  report('in front', late);
  expect(late.filter((lateMs) => !onTime(lateMs))).toEqual([]);
  expect(await page.evaluate(() => globalThis.voicePage.problems)).toEqual([]);
});

it('does so in a hidden tab', async () => {
  const { page, context } = await open();
  const other = await context.newPage();
  await other.bringToFront();
  expect(await page.evaluate(() => document.visibilityState)).toBe('hidden');
  // Its own timers are late: without a worker the calls would be too.
  await page.evaluate(() => globalThis.voicePage.ownTimerLateMs());
  expect(await page.evaluate(() => globalThis.voicePage.ownTimerLateMs())).toBeGreaterThan(150);
  const late = await latenessOfMarks(page);
  report('hidden', late);
  expect(late.filter((lateMs) => !onTime(lateMs))).toEqual([]);
});

it('goes on without a clip that cannot be loaded, and says which', async () => {
  const { page } = await open();
  await page.evaluate(() => {
    globalThis.voicePage.say({ id: 'noted' });
    globalThis.voicePage.say({ id: 'listening' });
  });
  await page.waitForFunction(
    () => globalThis.voicePage.log.filter(({ what }) => what === 'end').length === 2,
  );
  const texts = await page.evaluate(() => globalThis.voicePage.log.map(({ text }) => text));
  expect(texts).toContain('Noted.');
  expect(texts).toContain('Listening.');
  expect(await page.evaluate(() => globalThis.voicePage.problems.join())).toContain('Noted.');
  expect((await onsets(page)).length).toBe(1);
});
