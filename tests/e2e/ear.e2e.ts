/** The ear's browser parts alone, in real Chromium: microphone, worker, keyed wake word. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { writeTimeline, type Spoken } from '../speech/timeline.ts';
import { launch } from './browser.ts';
import { requireChromium } from './chromium.ts';
import type { EarPage } from './ear-page/page.ts';

declare global {
  // Defined by the page; inside `evaluate` only.
  var earPage: EarPage;
}

const root = fileURLToPath(new URL('../../', import.meta.url));
let server: ViteDevServer;
let url: string;
let folder: string;
let spoken: readonly Spoken[];
let context: BrowserContext | undefined;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-ear-'));
  spoken = await writeTimeline(join(folder, 'talk.wav'), {
    utterances: [
      { atMs: 1_500, text: 'lantern', voice: 'scottishMan' },
      { atMs: 3_500, text: 'cleaner on', voice: 'receivedWoman' },
    ],
    noises: [{ kind: 'hiss', snrDb: 35, seed: 5 }],
    tailMs: 20_000,
  });
  server = await createServer({
    root,
    configFile: false,
    logLevel: 'error',
    cacheDir: join(folder, 'vite'),
    assetsInclude: ['**/*.onnx'],
    server: { host: '127.0.0.1', port: 0 },
  });
  await server.listen();
  url = `${server.resolvedUrls?.local[0]}tests/e2e/ear-page/index.html`;
});
afterAll(async () => {
  await server.close();
  await rm(folder, { recursive: true });
});
afterEach(() => context?.close());

async function pageOf(opened: BrowserContext): Promise<Page> {
  context = opened;
  const page = await opened.newPage();
  await page.goto(url);
  await page.waitForFunction(() => 'earPage' in globalThis);
  return page;
}

const surgery = async (): Promise<Page> =>
  pageOf(
    await launch({
      profile: await mkdtemp(join(folder, 'profile-')),
      sound: join(folder, 'talk.wav'),
      viewport: { width: 800, height: 600 },
    }),
  );

/** A browser whose microphone is as `args` say, and which allows nothing by itself. */
const bare = async (...args: readonly string[]): Promise<Page> =>
  pageOf(
    await chromium.launchPersistentContext(await mkdtemp(join(folder, 'profile-')), {
      executablePath: requireChromium(),
      headless: true,
      args: ['--no-sandbox', '--disable-gpu', ...args],
    }),
  );

/** What of the speech was not found where it was spoken, and soon after. */
const misplaced = (segments: Awaited<ReturnType<EarPage['listen']>>['segments']) =>
  spoken.flatMap(({ startMs, endMs }, i) => {
    const found = segments[i];
    const isThere =
      segments.length === spoken.length &&
      found !== undefined &&
      Math.abs(found.speechStartMs - startMs) < 200 &&
      Math.abs(found.speechEndMs - endMs) < 200 &&
      found.givenMs - endMs < 450;
    return isThere ? [] : [{ startMs, endMs, segments }];
  });

describe('the microphone', () => {
  it('gives 16 kHz frames, and the speech in them where it was spoken', async () => {
    const page = await surgery();
    const heard = await page.evaluate(() => earPage.listen(6_000));
    expect(heard.happened).toEqual([]);
    expect(heard.starts).toBe(1);
    expect(Math.abs(heard.seconds - 6)).toBeLessThan(0.5);
    expect(heard.peak).toBeGreaterThan(0.1);
    expect(misplaced(heard.segments)).toEqual([]);
  });

  it('gives them as well where a browser joins no stream to a context of another rate', async () => {
    const page = await surgery();
    await page.evaluate(() => {
      const { prototype } = AudioContext;
      // oxlint-disable-next-line typescript/unbound-method -- it is only ever applied to a context
      const given = prototype.createMediaStreamSource;
      prototype.createMediaStreamSource = function createMediaStreamSource(stream) {
        if (this.sampleRate === 16_000) throw new DOMException('rates', 'NotSupportedError');
        return Reflect.apply(given, this, [stream]);
      };
    });
    const heard = await page.evaluate(() => earPage.listen(6_000));
    expect(heard.happened).toEqual([]);
    expect(Math.abs(heard.seconds - 6)).toBeLessThan(0.7);
    expect(misplaced(heard.segments)).toEqual([]);
    // All of it, however long the room rests: its ends are made into one sound.
    expect(heard.pieces.map(({ kind }) => kind)).not.toContain('rest');
  });

  it.each([
    ['keeps back the sound of a room at rest', false, { kind: 'rest', samples: 8_192 }],
    ['or gives it in longer pieces where all is wanted', true, { kind: 'sound', samples: 8_192 }],
  ])('%s, and gives what may be speech at once', async (_, whole, atRest) => {
    const page = await surgery();
    const { pieces, seconds, segments } = await page.evaluate(
      (all) => earPage.listen(8_000, all),
      whole,
    );
    const between = (fromMs: number, untilMs: number) =>
      pieces
        .filter(({ endMs }) => endMs > fromMs && endMs < untilMs)
        .map(({ kind, samples }) => ({ kind, samples }));
    expect(Math.abs(seconds - 8)).toBeLessThan(0.6);
    expect(segments).toHaveLength(2);
    const inSpeech = spoken.flatMap(({ startMs, endMs }) => between(startMs + 200, endMs));
    expect(new Set(inSpeech.map(({ kind, samples }) => `${kind} ${samples}`))).toEqual(
      new Set(['sound 512']),
    );
    const inQuiet = between((spoken.at(-1)?.endMs ?? 0) + 1_800, 7_500);
    expect(inQuiet.length).toBeGreaterThan(0);
    for (const piece of inQuiet) expect(piece).toEqual(atRest);
  });

  it('that is lost is told, and opened again by itself', async () => {
    const page = await surgery();
    const { happened, starts, seconds } = await page.evaluate(() =>
      earPage.listenThroughLoss(4_000),
    );
    expect(happened).toEqual(['lost: ', 'well: lost']);
    expect(starts).toBe(2);
    expect(seconds).toBeGreaterThan(1);
  });

  it('that is stopped while it opens is let go', async () => {
    const page = await surgery();
    expect(await page.evaluate(() => earPage.stopAtOnce())).toEqual(['ended']);
  });

  it('that does not exist is told', async () => {
    const page = await bare();
    const { happened, starts } = await page.evaluate(() => earPage.listen(500));
    expect({ happened, starts }).toEqual({ happened: ['no device: NotFoundError'], starts: 0 });
  });

  it('that is not allowed is told, and opened when it is allowed', async () => {
    const page = await bare('--use-fake-device-for-media-stream', '--deny-permission-prompts');
    const listening = page.evaluate(() => earPage.listen(5_000));
    await page.waitForFunction(() => earPage.happened.length > 0);
    await page.context().grantPermissions(['microphone']);
    const { happened, starts, seconds } = await listening;
    expect(happened).toEqual(['denied: NotAllowedError', 'well: denied']);
    expect(starts).toBe(1);
    expect(seconds).toBeGreaterThan(0.5);
  });
});

it('a worker killed is there again within a second, and hears what it was at', async () => {
  const page = await surgery();
  const { tookMs, ...rest } = await page.evaluate(() => earPage.killWorker());
  expect(rest).toEqual({
    first: { phrase: 'seating', score: 0.9, sure: true },
    second: { phrase: 'next step', score: 0.9, sure: true },
    deaths: ['the worker is gone'],
    workers: 2,
  });
  expect(tookMs).toBeLessThan(1_000);
});

describe('the keyed wake word, as far as it goes without a key', () => {
  it('each thing wrong has its sentence, and the call sign goes on', async () => {
    const page = await surgery();
    const told = await page.evaluate(async () => [
      await earPage.wake('not a key', 'Grapefruit'),
      await earPage.wake('bm90IGEga2V5IGJ1dCB3ZWxsIGZvcm1lZCBlbm91Z2g=', 'Grapefruit'),
      await earPage.wake('key', 'Turnip'),
    ]);
    expect(told.map(({ words, told: [sentence] }) => [words[0], sentence])).toEqual([
      ['lantern', 'The wake-word access key is not valid.'],
      ['lantern', 'The keyword or the model was made for another version of the wake-word engine.'],
      ['lantern', 'The wake-word engine has no built-in keyword "Turnip".'],
    ]);
    // It names those there are.
    expect(told[2]?.told[1]).toContain('Grapefruit');
  });
});
