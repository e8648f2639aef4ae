import { afterEach, expect, it } from 'vitest';
import { ZIRCONIA_CASE } from '../chair/seatings.ts';
import { rms } from '../speech/noise.ts';
import { exported } from './exported.ts';
import { Operatory } from './harness.ts';
import { openCase } from './open-case.ts';
import { PLAYED_RATE } from './room.ts';

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

/** Starting the recogniser takes a second, but not on a machine that does ten things besides. */
const PATIENCE_MS = 60_000;

it('one click opens a case and the microphone; the rest is said, and answered aloud', async () => {
  operatory = await Operatory.open({
    viewport: 'wall',
    talk: {
      utterances: [
        { atMs: 3_000, text: 'lantern, case checked', voice: 'americanWoman' },
        { atMs: 9_000, text: 'lantern, cleaner off', voice: 'americanWoman' },
      ],
      // Short, so that the file comes round and it is said again until the ear is ready.
      tailMs: 7_000,
    },
  });
  const { page } = operatory;
  await page.getByRole('button', { name: /^Zirconia/u }).click();
  await page.getByRole('button', { name: 'Open case', exact: true }).click();

  await operatory.until('step', /^Case check$/u);
  const heard = await operatory.until('heard', /case checked/u, PATIENCE_MS);
  await operatory.until('step', /^History and consent$/u, PATIENCE_MS);
  const said = await operatory.until('said', /[Aa]llerg/u, PATIENCE_MS);
  await operatory.screenshot('voice-first-command', 'wall');
  // Nothing is on yet: it is not taken for "cleaner on", and whoever said it hears why not.
  await operatory.until('heard', /cleaner off.*refused/u, PATIENCE_MS);
  await operatory.until('said', /No timer is running/u, PATIENCE_MS);

  const log = await operatory.log();
  const [from, to] = [log[heard]?.atMs ?? 0, (log[said]?.atMs ?? 0) + 2_000];
  await page.waitForFunction((end) => Date.now() > end, to);
  const { pcm, fromMs } = await operatory.played();
  const sample = (atMs: number): number => Math.max(0, ((atMs - fromMs) * PLAYED_RATE) / 1000);
  expect(rms(pcm.subarray(sample(from), sample(to)))).toBeGreaterThan(0.01);
  expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
});

it('answers typed words as it answers the same words spoken, out of turn as well', async () => {
  operatory = await Operatory.open();
  const { page } = operatory;
  await openCase(operatory, ZIRCONIA_CASE);
  const type = async (words: string): Promise<void> => {
    await page.keyboard.press('/');
    await page.keyboard.type(words);
    await page.keyboard.press('Enter');
  };
  await type('cleaner off');
  await operatory.until('heard', /cleaner off.*refused/u);
  await operatory.until('said', /No timer is running/u);
  await type('Polishing  now');
  await operatory.until('heard', /[Pp]olishing\s+now.*not now, nothing done/u);
  await type('nothing of ours');
  await operatory.until('heard', /nothing of ours.*not understood/u);
  await type('trying in');
  await operatory.until('heard', /trying in.*taken/u);

  const { entries } = await exported(operatory, ZIRCONIA_CASE.reference);
  expect(
    entries.map(({ command, outcome, stamp }) => [command.type, outcome.kind, stamp.via]),
  ).toEqual([
    ['finish', 'refused', 'typed'],
    ['begin', 'accepted', 'typed'],
  ]);
  expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
});

it('falls asleep by itself on the screen, and then looks at no clock until something happens', async () => {
  operatory = await Operatory.open();
  const { page } = operatory;
  await openCase(operatory, ZIRCONIA_CASE);
  const fallsAsleep = (): Promise<unknown> =>
    page.waitForFunction(
      () =>
        document.querySelector('section[aria-label="Listening"] strong')?.textContent === 'Asleep',
      null,
      { timeout: PATIENCE_MS },
    );
  await page.keyboard.press('/');
  await page.keyboard.type('case checked');
  await page.keyboard.press('Enter');
  await operatory.until('ear', /Speaking/u);
  await fallsAsleep();
  // Its last look, and whatever howler still has to clear away.
  await page.waitForTimeout(2_000);
  const timersIn = (ms: number): Promise<number> =>
    page.evaluate(async (forMs) => {
      const timer = setTimeout.bind(globalThis);
      let set = 0;
      globalThis.setTimeout = Object.assign((...given: Parameters<typeof timer>) => {
        set += 1;
        return timer(...given);
      }, globalThis.setTimeout);
      await new Promise((resolve) => timer(resolve, forMs));
      return set;
    }, ms);
  expect(await timersIn(2_000)).toBe(0);
});
