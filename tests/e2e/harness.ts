/**
 * A surgery with Seatcall in it, for end-to-end tests: the built page in a real browser whose
 * microphone hears a sound file. It reads the page as a person or a screen reader would, by text
 * and `data-` attributes, never by the app's insides.
 */
import { copyFile, mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { writeTimeline, type Spoken, type Talk } from '../speech/timeline.ts';
import { launch } from './browser.ts';
import { keepLog, logLines, readLog, type Place, type Reading } from './log.ts';
import { joinRoom, played, type Played, type RoomOptions } from './room.ts';
import { serveBuild, type Served } from './serve.ts';

/** What went wrong in the page while nobody looked. */
export interface Problems {
  /** Console errors and warnings, refusals by the content policy among them. */
  readonly console: string[];
  /** Exceptions that nothing caught. */
  readonly page: string[];
  /** Requests to anything but the page's own origin; none of them got through. */
  readonly outside: string[];
}

/** Sizes a practice has: a wall screen, a tablet on the tray, the receptionist's desk. */
export const VIEWPORTS = {
  wall: { width: 1920, height: 1080 },
  tray: { width: 1024, height: 768 },
  desk: { width: 1366, height: 768 },
} as const;

/** How the surgery is set up. */
export interface OperatoryOptions {
  /** What is said into the microphone, counted from when the page opens it. Silence unless given. */
  readonly talk?: Talk;
  readonly viewport?: keyof typeof VIEWPORTS;
  /** How the page's voice comes back into the microphone: not at all unless said. */
  readonly room?: RoomOptions;
}

const OUT = fileURLToPath(new URL('../.out/', import.meta.url));
const SILENCE: Talk = { utterances: [], tailMs: 30_000 };

/** One surgery. Its address, and so the page's store, outlives tabs and browsers. */
export class Operatory {
  readonly problems: Problems = { console: [], page: [], outside: [] };
  /** When each thing of the current talk is said, from when the page opens the microphone. */
  spoken: readonly Spoken[] = [];
  readonly #served: Served;
  readonly #folder: string;
  readonly #viewport: keyof typeof VIEWPORTS;
  readonly #room: RoomOptions;
  #context: BrowserContext | undefined;
  #page: Page | undefined;

  private constructor(served: Served, folder: string, options: OperatoryOptions) {
    this.#served = served;
    this.#folder = folder;
    this.#viewport = options.viewport ?? 'tray';
    this.#room = options.room ?? {};
  }

  /** Sets up a surgery and opens the page in it. Close it in the test's `finally`. */
  static async open(options: OperatoryOptions = {}): Promise<Operatory> {
    const folder = await mkdtemp(join(tmpdir(), 'seatcall-'));
    const operatory = new Operatory(await serveBuild(), folder, options);
    try {
      await operatory.say(options.talk ?? SILENCE);
      await operatory.start();
    } catch (error) {
      await operatory.close();
      throw error;
    }
    return operatory;
  }

  /** The page's address. */
  get url(): string {
    return this.#served.url;
  }

  /** The open tab. */
  get page(): Page {
    if (this.#page === undefined) throw new Error('no tab is open');
    return this.#page;
  }

  /** The folder of the browser's profile. */
  get profile(): string {
    return join(this.#folder, 'profile');
  }

  get #sound(): string {
    return join(this.#folder, 'microphone.wav');
  }

  /** Changes what the microphone will hear when the page next opens it. */
  async say(talk: Talk): Promise<void> {
    const draft = join(this.#folder, 'next.wav');
    this.spoken = await writeTimeline(draft, talk);
    await copyFile(draft, this.#sound);
  }

  /** Starts the browser, on the profile it had before, and opens the page. */
  async start(): Promise<void> {
    const viewport = VIEWPORTS[this.#viewport];
    const { profile } = this;
    this.#context = await launch({ profile, sound: this.#sound, viewport });
    this.#context.on('request', (request) => {
      const url = request.url();
      const own = [this.url, 'data:', 'blob:', 'about:'].some((start) => url.startsWith(start));
      if (!own) this.problems.outside.push(url);
    });
    await joinRoom(this.#context, this.#room);
    await keepLog(this.#context);
    await this.openTab();
  }

  /** Opens the page in a new tab, which becomes `page`. */
  async openTab(): Promise<void> {
    if (this.#context === undefined) throw new Error('no browser is running');
    // A persistent context starts with an empty tab; it stays, so the browser outlives our tab.
    const page = await this.#context.newPage();
    page.on('console', (message) => {
      const [type, text] = [message.type(), message.text()];
      // The room's own recorder, not the page's.
      if (text.startsWith('The ScriptProcessorNode is deprecated')) return;
      if (type === 'error' || type === 'warning') this.problems.console.push(text);
    });
    page.on('pageerror', (error) => this.problems.page.push(String(error.stack ?? error)));
    this.#page = page;
    await page.goto(this.url);
  }

  /** The tab's process dies in the middle of whatever it does: nothing is run on the way out. */
  async killTab(): Promise<void> {
    const page = this.page;
    const gone = new Promise<void>((done) => page.once('crash', () => done()));
    const session = await page.context().newCDPSession(page);
    // The command's own answer dies with the tab.
    void session.send('Page.crash').catch(() => undefined);
    await gone;
    await page.close();
    this.#page = undefined;
  }

  /** The whole browser dies at once, as when the power fails. Follow with `start()`. */
  async killBrowser(): Promise<void> {
    const context = this.#context;
    const browser = context?.browser();
    if (context === undefined || browser === null || browser === undefined) {
      throw new Error('no browser is running');
    }
    const gone = new Promise<void>((done) => context.once('close', () => done()));
    const session = await browser.newBrowserCDPSession();
    void session.send('Browser.crash').catch(() => undefined);
    await gone;
    this.#context = undefined;
    this.#page = undefined;
  }

  /**
   * From here on the page's clocks (`Date`, `performance.now`, timers; not sound, not workers) can
   * be moved on by {@link jump}; until then they run at their own pace. Reopens the tab.
   */
  async takeClock(): Promise<void> {
    await this.page.clock.install();
    await this.page.goto(this.url);
  }

  /** Moves the page's clocks on by `ms` at once; what was due on the way fires once. */
  async jump(ms: number): Promise<void> {
    await this.page.clock.fastForward(ms);
  }

  /** Everything that stood on the open tab since it was opened, in order. */
  log(): Promise<readonly Reading[]> {
    return readLog(this.page);
  }

  /**
   * Waits until `pattern` has stood at `place`, after the reading numbered `after` in {@link log}
   * (from the start unless given), and gives that reading's number.
   * @throws Error with the whole log when it has not within `withinMs`.
   */
  async until(place: Place, pattern: RegExp, withinMs = 10_000, after = -1): Promise<number> {
    const last = performance.now() + withinMs;
    for (;;) {
      const log = await this.log();
      const found = log.findIndex(
        (one, number) => number > after && one.place === place && pattern.test(one.text),
      );
      if (found !== -1) return found;
      if (performance.now() > last) {
        const like = `no ${place} like ${String(pattern)} in ${withinMs} ms`;
        throw new Error(`${like}:\n${logLines(log)}`);
      }
      await this.page.waitForTimeout(50);
    }
  }

  /** Everything the open tab has played so far, as sound. */
  played(): Promise<Played> {
    return played(this.page);
  }

  /** Saves what is on screen as `tests/.out/NAME.png` and gives the path. */
  async screenshot(
    name: string,
    viewport: keyof typeof VIEWPORTS = this.#viewport,
  ): Promise<string> {
    await mkdir(OUT, { recursive: true });
    const path = join(OUT, `${name}.png`);
    await this.page.setViewportSize(VIEWPORTS[viewport]);
    await this.page.screenshot({ path });
    await this.page.setViewportSize(VIEWPORTS[this.#viewport]);
    return path;
  }

  /** Ends the browser and the server and forgets the profile. */
  async close(): Promise<void> {
    await this.#context?.close();
    await this.#served.close();
    await rm(this.#folder, { recursive: true, force: true });
  }
}
