/** The room check on the desk: one click, then a person reads what the screen asks for. */
import { afterEach, expect, it } from 'vitest';
import { speak, SPEECH_RATE } from '../speech/index.ts';
import { amplitude, rms } from '../speech/noise.ts';
import { Operatory } from './harness.ts';
import { utter } from './room.ts';

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

const PATIENCE_MS = 60_000;

it('in a quiet room with three phrases read, it says that it hears well, and lets the microphone go', async () => {
  operatory = await Operatory.open({
    room: { person: true },
    talk: { utterances: [], noises: [{ kind: 'hiss', snrDb: 35, seed: 3 }], tailMs: 60_000 },
  });
  const { page } = operatory;
  const check = page.getByRole('region', { name: 'Room check' });
  await check.getByRole('button', { name: 'Check the room' }).click();
  for (const phrase of ['cleaner on', 'saliva on it', 'mixing now']) {
    await check.getByText(`lantern, ${phrase}`).waitFor({ timeout: PATIENCE_MS });
    const said = await speak(`lantern, ${phrase}`, 'americanWoman');
    const level = amplitude(-24) / rms(said);
    await utter(
      page,
      said.map((value) => value * level),
      SPEECH_RATE,
    );
  }
  await check.getByText('Hears well here.').waitFor({ timeout: PATIENCE_MS });
  const phrases = await check.getByRole('listitem').allInnerTexts();
  expect(phrases.map((text) => text.replaceAll(/\s+/gu, ' ').trim())).toEqual([
    'cleaner on heard',
    'saliva on it heard',
    'mixing now heard',
  ]);
  await operatory.screenshot('room-check', 'wall');
  // The next case opens the microphone anew.
  await page.getByRole('button', { name: /^Zirconia/u }).click();
  await page.getByRole('button', { name: 'Open case', exact: true }).click();
  await operatory.until('ear', /^(?:Asleep|Awake)/u, PATIENCE_MS);
  expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
});
