/**
 * Every screen in every shape, from the gallery of invented states: held to axe (WCAG 2 A and AA,
 * and the 7:1 contrast of AAA), to fitting its screen, and to being worked without a mouse.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { AxeResults } from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAUTION } from '../../assistant/screens/words.ts';
import { requireChromium } from './chromium.ts';

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
] as const;

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

declare global {
  interface Window {
    axe: { run: (root: Document, options: object) => Promise<AxeResults> };
  }
}

let server: ViteDevServer;
let browser: Browser;
let gallery: string;
let axeSource: string;

beforeAll(async () => {
  server = await createServer({
    configFile: false,
    root: here('../../assistant'),
    cacheDir: here('../../.cache/vite-gallery'),
    publicDir: false,
    logLevel: 'error',
    // Found late, a dependency would reload the page under the test; raw modules need no finding.
    optimizeDeps: { noDiscovery: true },
    server: { port: 0, hmr: false, watch: null, fs: { allow: [here('../..')] } },
  });
  await server.listen();
  gallery = `${server.resolvedUrls?.local[0] ?? ''}screens/gallery.html`;
  axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  browser = await chromium.launch({ executablePath: requireChromium(), args: ['--no-sandbox'] });
});

afterAll(async () => {
  await browser.close();
  await server.close();
});

/** A page on one state of the gallery; exceptions of the page fail the test. */
async function open(name: string, viewport: { width: number; height: number }): Promise<Page> {
  const page = await browser.newPage({ viewport, reducedMotion: 'reduce' });
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.clock.install();
  await page.goto(`${gallery}#${name}`);
  await page.waitForSelector('#app > *');
  return page;
}

/** What axe finds wrong, one line each. */
async function violations(page: Page): Promise<readonly string[]> {
  const { violations: found } = await page.evaluate(() =>
    window.axe.run(document, {
      rules: { 'color-contrast-enhanced': { enabled: true } },
      // Nobody reads the selectors of what is right, and writing them takes as long as finding it.
      resultTypes: ['violations'],
    }),
  );
  return found.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${String(target)}`));
}

/** What does not fit: the page sideways anywhere, the chair in any direction. */
function misfits(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const root = document.documentElement;
    const wide = root.scrollWidth > innerWidth ? [`page ${root.scrollWidth} wide`] : [];
    const chair = document.querySelector('.chair');
    const tall =
      chair !== null && chair.scrollHeight > innerHeight
        ? [`chair ${chair.scrollHeight} high`]
        : [];
    return [...wide, ...tall];
  });
}

/** Opens or shuts every list and drawer. */
function unfold(page: Page, wide: boolean): Promise<void> {
  return page.evaluate((to) => {
    for (const one of document.querySelectorAll('details')) one.open = to;
  }, wide);
}

describe('the gallery', () => {
  // Side by side: each takes a minute of one core, and nothing in them waits for a clock.
  it.concurrent.each(SIZES)(
    'is accessible, fits and cautions at $width x $height',
    async (size) => {
      const page = await open('', size);
      await page.evaluate(axeSource);
      const names = (await page.locator('#app > a').allTextContents()).map((name) => name.trim());
      const wrong: Record<string, readonly string[]> = {};
      for (const name of names) {
        await page.evaluate((next) => location.assign(`#${next}`), name);
        await page.waitForSelector(`#app[data-shown="${name}"]`);
        const cautions = await page.locator('.caution').allTextContents();
        const closed = [...(await violations(page)), ...(await misfits(page))];
        await unfold(page, true);
        const found = [
          ...closed,
          ...(await violations(page)),
          ...(cautions.join('') === CAUTION ? [] : [`cautions: ${cautions.join(' | ')}`]),
        ];
        await unfold(page, false);
        if (found.length > 0) wrong[name] = [...new Set(found)];
      }
      expect(names.length).toBeGreaterThan(15);
      expect(wrong).toEqual({});
      await page.close();
    },
  );
});

describe('the chair', () => {
  it('is written to be read from two metres: step and act at 64 px or more', async () => {
    const page = await open('chair-dwell-short', SIZES[0]);
    const sizeOf = (selector: string): Promise<number> =>
      page.$eval(selector, (element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(await sizeOf('h1')).toBeGreaterThanOrEqual(64);
    expect(await sizeOf('.todo')).toBeGreaterThanOrEqual(64);
    expect(await sizeOf('.dwell-time')).toBeGreaterThanOrEqual(150);
    await page.close();
  });

  it('takes two units from case check to close with the space bar alone', async () => {
    const page = await open('live', SIZES[1]);
    const main = page.locator('.chair-acts .act-main');
    const seen = new Set<string>();
    for (let presses = 0; presses < 200; presses += 1) {
      const title = (await page.locator('h1').textContent()) ?? '';
      seen.add(title);
      if (title === 'Case closed') break;
      expect(await misfits(page), title).toEqual([]);
      const aim = page.locator('.mark-aim');
      if ((await aim.count()) > 0 && (await main.textContent())?.includes('Done') === true) {
        const [, minutes = '0'] = /(\d+) min/u.exec((await aim.textContent()) ?? '') ?? [];
        const [, seconds = '0'] = /(\d+) s/u.exec((await aim.textContent()) ?? '') ?? [];
        await page.clock.runFor((Number(minutes) * 60 + Number(seconds)) * 1000);
      }
      await page.keyboard.press('Space');
      await page.clock.runFor(1_000);
    }
    expect([...seen]).toContain('Case closed');
    expect(seen.size).toBeGreaterThan(40);
    await page.close();
  });

  it('takes a bouncing pedal for one press, so that it does not answer its own question', async () => {
    const page = await open('live', SIZES[0]);
    await page.getByText('More', { exact: true }).click();
    await page.getByRole('button', { name: 'Skip' }).click();
    await page.keyboard.press('2');
    await page.clock.runFor(1_000);
    await expect.poll(() => page.locator('.question').textContent()).toContain('Not needed.');
    await page.keyboard.press('Space');
    await page.keyboard.press('Space');
    await page.clock.runFor(200);
    await expect.poll(() => page.locator('h1').textContent()).toBe('History and consent');
    await page.close();
  });

  it('gives the focus up after a touch, so that the pedal does not press that button again', async () => {
    const page = await open('live', SIZES[0]);
    await page.keyboard.press('Space');
    await page.clock.runFor(1_000);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.clock.runFor(1_000);
    await expect.poll(() => page.locator('h1').textContent()).toBe('Case check');
    await page.keyboard.press('Space');
    await page.clock.runFor(1_000);
    await expect.poll(() => page.locator('h1').textContent()).toBe('History and consent');
    await page.locator('.step-list summary').click();
    await page.keyboard.press('Space');
    await page.clock.runFor(1_000);
    await expect.poll(() => page.locator('h1').textContent()).toBe('Equipment');
    await page.close();
  });

  it('brings a refusal with its reason and the way on', async () => {
    const page = await open('live', SIZES[0]);
    await page.keyboard.press('/');
    await page.keyboard.type('porcelain etch on');
    await page.keyboard.press('Enter');
    await page.clock.runFor(300);
    const refusal = (await page.locator('.refusal').textContent())?.replaceAll(/\s+/gu, ' ').trim();
    expect(refusal).toMatch(
      /^Refused\. Porcelain etch finds no glass in this\. Nothing would hold\. Instead, \S.+\. No override\.$/u,
    );
    await page.close();
  });
});

describe('the desk', () => {
  it('makes a plan as soon as the facts allow one, and names a wrong one beside its field', async () => {
    const page = await open('desk-plan', SIZES[0]);
    const height = page.getByLabel('Prep height').first();
    const openCase = page.getByRole('button', { name: 'Open case' });
    await expect.poll(() => openCase.isEnabled()).toBe(true);
    await height.fill('0');
    await expect.poll(() => openCase.isEnabled()).toBe(false);
    await expect.poll(() => height.getAttribute('aria-invalid')).toBe('true');
    const below = await height.getAttribute('aria-describedby');
    expect(await page.locator(`#${below ?? ''}`).textContent()).toContain('0 is not allowed');
    await height.fill('4,5');
    await expect.poll(() => openCase.isEnabled()).toBe(true);
    await expect.poll(() => height.inputValue()).toBe('4,5');
    await page.close();
  });
});
