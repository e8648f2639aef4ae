/**
 * Whole appointments by voice in real Chromium. The microphone is a sound file (the hiss of the
 * room), a person speaks into it in real time, and Seatcall's own voice comes back into
 * it. Recogniser, store and voice are the app's own; after the microphone was allowed nobody
 * touches anything. The whole talks as one sound file are rehearsed in `chair.sound.test.ts`.
 */
import { readFile } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import type { CaseFile } from '../../machines/contract/index.ts';
import { type Verified, verifySealed } from '../../machines/record/index.ts';
import { checkSignature } from '../../assistant/store/signing.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import type { Talk } from '../chair/talk.ts';
import type { VoiceName } from '../speech/index.ts';
import { Operatory } from './harness.ts';
import { openCase } from './open-case.ts';
import { Person } from './person.ts';

/** What is left of our own voice where echo cancellation works; it was not told of this one. */
const ROOM = { echoDb: -36, person: true } as const;

/** A quiet surgery; louder rooms are the benchmark's. */
const SURGERY = {
  utterances: [],
  noises: [{ kind: 'hiss', snrDb: 35, seed: 3 }],
  tailMs: 60_000,
} as const;

/** The record as the desk exports it, verified with its seal. */
async function exported(operatory: Operatory, reference: string): Promise<Verified> {
  const { page } = operatory;
  await page.getByRole('button', { name: 'Desk' }).click();
  await page.getByText('Kept in this browser').click();
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: `Export the record of ${reference}` }).click();
  const path = await (await coming).path();
  const verdict = await verifySealed(await readFile(path), checkSignature);
  if (!verdict.ok) throw new Error(verdict.message);
  return verdict;
}

interface Performed {
  readonly person: Person;
  /** Everything that was called, as it stood on the screen. */
  readonly said: string;
  readonly record: Verified;
}

async function performed(
  caseFile: CaseFile,
  seat: (talk: Talk) => Promise<void>,
  voice: VoiceName,
): Promise<Performed> {
  const operatory = await Operatory.open({ room: ROOM, talk: SURGERY });
  try {
    await openCase(operatory, caseFile);
    const person = new Person(caseFile, operatory, voice);
    await seat(person);
    await operatory.until('step', /^Case closed$/);
    const log = await operatory.log();
    expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
    const record = await exported(operatory, caseFile.reference);
    const said = log.filter(({ place }) => place === 'said').map(({ text }) => text);
    return { person, said: said.join('\n'), record };
  } catch (error) {
    const log = await operatory.log();
    const lines = log.slice(-60).map(({ atMs, place, text }) => `${atMs} ${place}: ${text}`);
    throw new Error(`${voice}: ${String(error)}\n${lines.join('\n')}`, { cause: error });
  } finally {
    await operatory.close();
  }
}

/** What came of every command that was given, in order, refusals of repeats left out. */
const accepted = ({ entries }: Verified): number =>
  entries.filter(({ outcome }) => outcome.kind === 'accepted').length;

// Side by side, because each takes as long as the appointment does.
test('both crowns are seated by voice alone, from the first word to the signed record', async () => {
  const [zirconia, disilicate] = await Promise.all([
    performed(ZIRCONIA_CASE, seatZirconia, 'americanWoman'),
    performed(DISILICATE_CASE, seatDisilicate, 'americanMan'),
  ]);
  for (const { person, record } of [zirconia, disilicate]) {
    const meant = person.lines.filter(({ expected }) => expected === 'accepted').length;
    expect(accepted(record)).toBe(meant);
    expect(record.closing?.kind).toBe('closing');
    // Nothing but the voice: no touch, no key.
    expect(new Set(record.entries.map(({ stamp }) => stamp.via))).toEqual(new Set(['voice']));
    // How often is for the benchmarks; that it was said again is for whoever reads this run.
    const again = person.repeated.length;
    process.stdout.write(`${person.lines.length} lines, ${again} said again\n`);
  }
  expect(zirconia.said).toContain('Never in the mouth. It burns.');
  expect(disilicate.said).toContain('Only etching takes silicone off.');
});

test('a tab killed in the middle of a 20 s dwell goes on at the true second', async () => {
  const operatory = await Operatory.open({ room: ROOM, talk: SURGERY });
  try {
    await openCase(operatory, ZIRCONIA_CASE);
    const person = new Person(ZIRCONIA_CASE, operatory, 'britishMan');
    await person.all('trying in', 'crown out');
    await person.say('cleaner on');
    const begunMs = Date.now();
    await operatory.page.waitForTimeout(6_000);
    await operatory.killTab();
    await setTimeout(3_000);
    await operatory.openTab();
    // Nobody touches it: the case is taken up, and the microphone was allowed before.
    await operatory.until('ear', /Asleep|Awake/, 60_000);
    const shown = await operatory.page.getByRole('timer').textContent();
    const trueMs = Date.now() - begunMs;
    expect(Math.abs(Number(shown) * 1000 - trueMs)).toBeLessThan(2_000);
    await operatory.page.waitForTimeout(Math.max(0, 21_000 - trueMs));
    await person.say('cleaner off');
    const record = await exported(operatory, ZIRCONIA_CASE.reference);
    const commands = record.entries.filter(({ outcome }) => outcome.kind === 'accepted');
    expect(commands.map(({ command }) => command)).toEqual([
      { type: 'begin', step: 'try-in' },
      { type: 'finish', step: 'take-out' },
      { type: 'begin', step: 'cleaner' },
      { type: 'finish', step: 'cleaner' },
    ]);
    const [begun, ended] = commands.slice(2).map(({ stamp }) => stamp.at);
    expect((ended ?? 0) - (begun ?? 0)).toBeGreaterThan(20_000);
    expect((ended ?? 0) - (begun ?? 0)).toBeLessThan(40_000);
  } finally {
    await operatory.close();
  }
});
