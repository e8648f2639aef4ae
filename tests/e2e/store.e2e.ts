import { createServer, type Server } from 'node:http';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { checkSignature } from '../../assistant/store/signing.ts';
import { verifySealed } from '../../machines/record/index.ts';
import { STORE_CASES } from '../store-suite.ts';
import { TRANSFER_CASES } from '../transfer-suite.ts';
import { launch } from './browser.ts';

const FULL = 'The storage is full: nothing more can be kept on this machine.';
const REST = 'This is kept only as long as this tab is open: export the case before closing it.';

let script = '';
let server: Server;
let url = '';
let folder = '';
let browser: BrowserContext | undefined;

/** The page's script, bundled as the app's is. */
async function bundle(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'warn',
    build: {
      write: false,
      minify: false,
      lib: {
        entry: fileURLToPath(new URL('store/page.ts', import.meta.url)),
        formats: ['es'],
        fileName: 'page',
      },
    },
  });
  const outputs = (Array.isArray(built) ? built : [built]).flatMap((one) =>
    'output' in one ? one.output : [],
  );
  const chunk = outputs.find((one) => one.type === 'chunk');
  if (chunk?.type !== 'chunk') throw new Error('nothing was bundled');
  return chunk.code;
}

beforeAll(async () => {
  script = await bundle();
  server = createServer((request, response) => {
    const isScript = request.url === '/page.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(
      isScript ? script : '<!doctype html><script type="module" src="/page.js"></script>',
    );
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  url = `http://127.0.0.1:${address.port}/`;
});
afterAll(() => new Promise((done) => server.close(done)));

async function start(): Promise<void> {
  const sound = join(folder, 'none.wav');
  await writeFile(sound, '');
  const viewport = { width: 800, height: 600 };
  browser = await launch({ profile: join(folder, 'profile'), sound, viewport });
}

async function tab(): Promise<Page> {
  if (browser === undefined) throw new Error('no browser is running');
  const page = await browser.newPage();
  await page.goto(url);
  await page.waitForFunction(() => 'hands' in window);
  return page;
}

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-store-'));
  await start();
});
afterEach(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true, maxRetries: 5 });
});

describe('the store in IndexedDB', () => {
  it('does what every store must do', async () => {
    const page = await tab();
    for (const { name, expected } of [...STORE_CASES, ...TRANSFER_CASES]) {
      const observed = await page.evaluate((one) => window.hands.observe(one), name);
      expect({ name, observed }).toEqual({ name, observed: expected });
    }
  });

  it('keeps a case to one tab, until that tab is gone', async () => {
    const first = await tab();
    const second = await tab();
    expect(await first.evaluate(() => window.hands.take('app'))).toBeNull();
    await first.evaluate(() => window.hands.write(3));
    expect(await second.evaluate(() => window.hands.take('app'))).toEqual({
      kind: 'elsewhere',
      message: 'This case is open in another tab or window. Close it there, or go on there.',
    });
    await first.close();
    expect(await second.evaluate(() => window.hands.take('app'))).toBeNull();
    expect(await second.evaluate(() => window.hands.write(2))).toBe(5);
  });

  it('goes on with what an older Seatcall left', async () => {
    const page = await tab();
    await page.evaluate(() => window.hands.leaveOld(5));
    expect(await page.evaluate(() => window.hands.take('app'))).toBeNull();
    expect(await page.evaluate(() => window.hands.write(1))).toBe(6);
    expect(await page.evaluate(() => window.hands.look())).toMatchObject({ ok: true, n: 6 });
  });

  it('deletes nothing that another tab writes, and what it deletes stays deleted', async () => {
    const first = await tab();
    const second = await tab();
    await first.evaluate(() => window.hands.take('app'));
    await first.evaluate(() => window.hands.write(3));
    expect(await second.evaluate(() => window.hands.remove())).toMatchObject({ kind: 'elsewhere' });
    await first.close();
    expect(await second.evaluate(() => window.hands.remove())).toBeNull();
    await second.close();
    await browser?.close();
    await start();
    const again = await tab();
    expect(await again.evaluate(() => window.hands.count())).toEqual([0, 1]);
    expect(await again.evaluate(() => window.hands.take('app'))).toMatchObject({ kind: 'deleted' });
  });

  it.each(['tab', 'browser'])(
    'has every acknowledged entry after the %s died while writing',
    async (what) => {
      const page = await tab();
      let acknowledged = 0;
      await page.exposeFunction('acknowledge', (n: number) => {
        acknowledged = n;
      });
      await page.evaluate(() => window.hands.take('app'));
      void page
        .evaluate(() => window.hands.writeOn((n) => window.acknowledge(n)))
        .catch(() => undefined);
      await expect.poll(() => acknowledged).toBeGreaterThan(20);
      if (what === 'tab') {
        const gone = new Promise((done) => page.once('crash', done));
        const session = await page.context().newCDPSession(page);
        void session.send('Page.crash').catch(() => undefined);
        await gone;
      } else {
        const gone = new Promise((done) => page.context().once('close', done));
        const session = await page.context().browser()?.newBrowserCDPSession();
        void session?.send('Browser.crash').catch(() => undefined);
        await gone;
        await start();
      }
      const last = acknowledged;
      const again = await tab();
      expect(await again.evaluate(() => window.hands.take('app'))).toBeNull();
      const seen = await again.evaluate(() => window.hands.look());
      expect(seen).toMatchObject({ ok: true, keeping: 'disk' });
      expect(seen.n).toBeGreaterThanOrEqual(last);
      expect(await again.evaluate(() => window.hands.write(1))).toBe(Number(seen.n) + 1);
    },
  );

  it('says that the disk is full, and keeps what it had', async () => {
    const page = await tab();
    await shrink(page);
    await page.evaluate(() => window.hands.take('disk'));
    await page.evaluate(() => window.hands.write(3));
    const trouble = await page.evaluate(() => window.hands.fill(1000));
    expect(trouble).toEqual({ kind: 'full', message: FULL });
    const seen = await page.evaluate(() => window.hands.look());
    expect(seen).toMatchObject({ ok: true, n: seen.head });
  });

  it('deletes on a full disk with the tombstone, or not at all', async () => {
    const page = await tab();
    await shrink(page);
    await page.evaluate(() => window.hands.take('disk'));
    await page.evaluate(() => window.hands.makeKeys());
    expect(await page.evaluate(() => window.hands.fill(1000))).toMatchObject({ kind: 'full' });
    const trouble = await page.evaluate(() => window.hands.remove());
    // Whether the last few bytes hold a tombstone is the browser's to say.
    expect(trouble?.kind ?? 'full').toBe('full');
    const kept = trouble === null ? [0, 1] : [1, 0];
    expect(await page.evaluate(() => window.hands.count())).toEqual(kept);
  });

  it('goes on in memory when the disk is full, and says so once', async () => {
    const page = await tab();
    await shrink(page);
    await page.evaluate(() => window.hands.take('app'));
    await page.evaluate(() => window.hands.write(3));
    expect(await page.evaluate(() => window.hands.fill(1000))).toBeNull();
    const seen = await page.evaluate(() => window.hands.look());
    expect(seen).toEqual({
      ok: true,
      n: 1003,
      head: 1003,
      keeping: 'memory',
      warnings: [`${FULL} ${REST}`],
    });
  });

  it('goes on in memory when the database is taken away', async () => {
    const page = await tab();
    await page.evaluate(() => window.hands.take('app'));
    await page.evaluate(() => window.hands.write(3));
    await page.evaluate(() => window.hands.clear());
    expect(await page.evaluate(() => window.hands.write(2))).toBe(5);
    expect(await page.evaluate(() => window.hands.look())).toEqual({
      ok: true,
      n: 5,
      head: 5,
      keeping: 'memory',
      warnings: [`The browser has closed the storage. ${REST}`],
    });
  });

  it('goes on in memory where the browser allows no storage, and says so', async () => {
    await browser?.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('denied', 'SecurityError');
      };
    });
    const page = await tab();
    expect(await page.evaluate(() => window.hands.take('app'))).toBeNull();
    expect(await page.evaluate(() => window.hands.write(4))).toBe(4);
    expect(await page.evaluate(() => window.hands.look())).toEqual({
      ok: true,
      n: 4,
      head: 4,
      keeping: 'memory',
      warnings: [
        'The browser does not allow storage here. Cases are kept only as long as this tab is open: export them before closing it.',
      ],
    });
  });

  it('hands a case out as a file that holds by itself', async () => {
    const page = await tab();
    await page.evaluate(() => window.hands.take('app'));
    await page.evaluate(() => window.hands.write(5));
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.evaluate(() => window.hands.save()),
    ]);
    expect(file.suggestedFilename()).toMatch(/^seatcall-2026-02-03-invented-1-[0-9a-f]{8}\.jsonl$/);
    const verdict = await verifySealed(await readFile(await file.path()), checkSignature);
    expect(verdict).toMatchObject({ ok: true, head: { n: 5 }, checkpoint: { n: 6 } });
  });

  it('writes an entry for good in under 50 ms at the median', async () => {
    const page = await tab();
    await page.evaluate(() => window.hands.take('app'));
    const times = await page.evaluate(async () => {
      const taken: number[] = [];
      for (let i = 0; i < 150; i += 1) {
        const from = performance.now();
        await window.hands.write(1);
        taken.push(performance.now() - from);
      }
      return taken.toSorted((a, b) => a - b);
    });
    console.log(`append: median ${times[75]?.toFixed(1)} ms, slowest ${times[149]?.toFixed(1)} ms`);
    expect(times[75]).toBeLessThan(50);
  });
});

/**
 * Gives the page's origin room for some hundred entries. To be called before the store is opened:
 * later, the browser goes by the room it last knew for half a minute.
 */
async function shrink(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const { origin } = new URL(url);
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 300_000 });
}
