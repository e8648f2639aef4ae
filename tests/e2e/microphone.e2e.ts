import { createServer } from 'node:http';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { Operatory, VIEWPORTS } from './harness.ts';

const OUT = fileURLToPath(new URL('../.out/', import.meta.url));

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

/** Levels in decibels of what the microphone gives, every 20 ms for `ms`. Runs in the page. */
async function listen(ms: number): Promise<readonly number[]> {
  const raw = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const stream = await navigator.mediaDevices.getUserMedia({ audio: raw });
  const context = new AudioContext({ sampleRate: 16_000 });
  const meter = new AnalyserNode(context, { fftSize: 512 });
  context.createMediaStreamSource(stream).connect(meter);
  const block = new Float32Array(320);
  const levels: number[] = [];
  await new Promise<void>((done) => {
    const began = context.currentTime;
    const timer = setInterval(() => {
      meter.getFloatTimeDomainData(block);
      const power = block.reduce((sum, sample) => sum + sample * sample, 0) / block.length;
      // By the sound's own clock: the interval is late when the machine is busy.
      levels[Math.floor((context.currentTime - began) * 50)] = 10 * Math.log10(power + 1e-12);
      if (context.currentTime - began < ms / 1000) return;
      clearInterval(timer);
      done();
    }, 10);
  });
  for (const track of stream.getTracks()) track.stop();
  await context.close();
  return Array.from(levels, (level) => level ?? Number.NEGATIVE_INFINITY);
}

it('the page opens, hears the sound file, and asks nobody outside', async () => {
  operatory = await Operatory.open({
    talk: {
      utterances: [{ atMs: 1_500, text: 'saliva on the intaglio', voice: 'scottishMan' }],
      tailMs: 10_000,
    },
  });
  expect(await operatory.page.title()).toContain('Seatcall');
  const [said] = operatory.spoken;
  if (said === undefined) throw new Error('one thing was said');

  const levels = await operatory.page.evaluate(listen, 5_000);

  const loud = levels.map((level) => level > -45);
  const heardMs = (loud.lastIndexOf(true) - loud.indexOf(true)) * 20;
  expect(Math.max(...levels)).toBeGreaterThan(-26);
  expect(Math.abs(heardMs - (said.endMs - said.startMs))).toBeLessThan(200);
  expect(Math.abs(loud.indexOf(true) * 20 - said.startMs)).toBeLessThan(500);
  expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
});

it('a new talk is heard by a tab opened after a killed one, on the same store', async () => {
  operatory = await Operatory.open();
  await operatory.page.evaluate(() => localStorage.setItem('kept', 'yes'));
  expect(Math.max(...(await operatory.page.evaluate(listen, 1_500)))).toBeLessThan(-50);
  await operatory.killTab();
  await operatory.say({
    utterances: [{ atMs: 300, text: 'stop', voice: 'americanWoman' }],
    tailMs: 10_000,
  });
  await operatory.openTab();
  expect(Math.max(...(await operatory.page.evaluate(listen, 2_000)))).toBeGreaterThan(-30);
  expect(await operatory.page.evaluate(() => localStorage.getItem('kept'))).toBe('yes');
});

it('what the page stored is there after the whole browser was killed', async () => {
  operatory = await Operatory.open();
  await operatory.page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('harness', 1);
        opening.addEventListener('upgradeneeded', () => opening.result.createObjectStore('kept'));
        opening.addEventListener('error', () => fail(new Error('not opened')));
        opening.addEventListener('success', () => {
          const write = opening.result.transaction('kept', 'readwrite', { durability: 'strict' });
          write.objectStore('kept').put('yes', 'it');
          write.addEventListener('complete', () => done());
        });
      }),
  );
  await operatory.killBrowser();
  await operatory.start();
  const names = await operatory.page.evaluate(() => indexedDB.databases());
  expect(names.map(({ name }) => name)).toContain('harness');
});

it('a request to the outside is seen and fails, by page and by tab', async () => {
  let reached = 0;
  const outside = createServer((_request, response) => {
    reached += 1;
    response.setHeader('Access-Control-Allow-Origin', '*');
    response.end('reached');
  });
  await new Promise<void>((done) => outside.listen(0, '127.0.0.2', done));
  try {
    const address = outside.address();
    if (address === null || typeof address === 'string') throw new Error('no port');
    const url = `http://127.0.0.2:${address.port}/`;
    operatory = await Operatory.open();
    const answered = await operatory.page.evaluate(
      (target) =>
        fetch(target).then(
          () => true,
          () => false,
        ),
      url,
    );
    expect(answered).toBe(false);
    expect(operatory.problems.console.join('\n')).toContain('Content Security Policy');
    // The policy does not rule where a tab goes; there the browser itself finds no such host.
    await expect(operatory.page.goto(url)).rejects.toThrow('ERR_NAME_NOT_RESOLVED');
    expect(operatory.problems.outside).toEqual([url]);
    expect(reached).toBe(0);
  } finally {
    outside.close();
  }
});

it('the clocks can be moved on', async () => {
  operatory = await Operatory.open();
  await operatory.takeClock();
  const began = await operatory.page.evaluate(() => performance.now());
  await operatory.jump(60_000);
  expect((await operatory.page.evaluate(() => performance.now())) - began).toBeGreaterThan(60_000);
});

it('the page is cross-origin isolated, so that threads can share memory', async () => {
  operatory = await Operatory.open({ viewport: 'wall' });
  expect(await operatory.page.evaluate(() => crossOriginIsolated)).toBe(true);
  expect(operatory.page.viewportSize()).toEqual(VIEWPORTS.wall);
});

declare global {
  interface Window {
    /** Set by {@link plug}: every microphone that was opened since, in order. */
    seatcallOpened?: MediaStreamTrack[];
  }
}

/** Pulls the microphone called `label` out of the page, or plugs it in again. */
function plug(page: Page, label: string, isIn: boolean): Promise<void> {
  return page.evaluate(
    ({ label: name, isIn: stays }) => {
      const devices = navigator.mediaDevices;
      const browsers = MediaDevices.prototype;
      const all = browsers.enumerateDevices.bind(devices);
      const open = browsers.getUserMedia.bind(devices);
      const opened = (window.seatcallOpened ??= []);
      devices.enumerateDevices = async () =>
        (await all()).filter((device) => stays || device.label !== name);
      devices.getUserMedia = async (wanted) => {
        const out = (await all()).find((device) => device.label === name)?.deviceId;
        const audio = typeof wanted?.audio === 'object' ? wanted.audio : {};
        const isOut = !stays && JSON.stringify(audio.deviceId) === JSON.stringify({ exact: out });
        // The browser itself has to find that there is no such device.
        const stream = await open({
          audio: isOut ? { ...audio, deviceId: { exact: 'pulled out' } } : audio,
        });
        opened.push(...stream.getAudioTracks());
        return stream;
      };
      devices.dispatchEvent(new Event('devicechange'));
    },
    { label, isIn },
  );
}

/** Names of the microphones that were opened since the first {@link plug}, and which are open still. */
const openedIn = (page: Page): Promise<readonly (readonly string[])[]> =>
  page.evaluate(() =>
    (window.seatcallOpened ?? []).map(({ label, readyState }) => [label, readyState]),
  );

it('the chosen microphone that is not there is named, another listens, and it is taken again', async () => {
  operatory = await Operatory.open({
    talk: { utterances: [], noises: [{ kind: 'hiss', snrDb: 35, seed: 3 }], tailMs: 60_000 },
  });
  const { page } = operatory;
  await page.getByRole('button', { name: 'Settings' }).click();
  const listenWith = page.getByLabel('Listen with');
  await listenWith
    .locator('option', { hasText: 'Fake Audio Input 2' })
    .waitFor({ state: 'attached' });
  await listenWith.selectOption({ label: 'Fake Audio Input 2' });
  // What was chosen outlives the page.
  await page.reload();
  await plug(page, 'Fake Audio Input 2', false);
  await page.getByRole('button', { name: 'Settings' }).click();
  await listenWith.locator('option', { hasText: 'not connected' }).waitFor({ state: 'attached' });
  expect(await listenWith.locator('option:checked').textContent()).toBe(
    'Fake Audio Input 2 (not connected)',
  );
  for (const [width, height] of [
    [1280, 800],
    [1024, 768],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.screenshot({ path: `${OUT}settings-microphone-${width}.png` });
  }

  await page.getByRole('button', { name: 'Desk' }).click();
  await page.getByRole('button', { name: /^Zirconia/u }).click();
  await page.getByRole('button', { name: 'Open case', exact: true }).click();
  await operatory.until('said', /Another microphone is listening/u, 60_000);
  const told = await operatory.until('ear', /^Another microphone is listening/u, 60_000);
  await operatory.until('alert', /Plug in “Fake Audio Input 2”/u);
  expect(await openedIn(page)).toEqual([['Fake Default Audio Input', 'live']]);
  await page.screenshot({ path: `${OUT}chair-other-microphone.png` });
  await plug(page, 'Fake Audio Input 2', true);
  await operatory.until('ear', /^Asleep/u, 60_000, told);
  expect(await openedIn(page)).toEqual([
    ['Fake Default Audio Input', 'ended'],
    ['Fake Audio Input 2', 'live'],
  ]);
  expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
});
