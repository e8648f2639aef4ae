/** A tab that dies in the middle of a dwell: nobody touches anything, and nothing is lost. */
import { setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { ZIRCONIA_CASE } from '../chair/seatings.ts';
import { exported } from './exported.ts';
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

test('a tab killed in the middle of a 20 s dwell goes on at the true second', async () => {
  const operatory = await Operatory.open({ room: ROOM, talk: SURGERY });
  try {
    await openCase(operatory, ZIRCONIA_CASE);
    const person = new Person(ZIRCONIA_CASE, operatory, 'britishMan');
    await person.all('trying in', 'crown out');
    await person.say('cleaner on');
    const begunMs = Date.now();
    const timer = async (): Promise<number> =>
      Number(await operatory.page.getByRole('timer').textContent());
    await operatory.page.waitForTimeout(2_000);
    const early = await timer();
    await operatory.page.waitForTimeout(4_000);
    // Nobody says anything meanwhile: time alone draws it.
    expect((await timer()) - early).toBeGreaterThanOrEqual(3);
    await operatory.killTab();
    await setTimeout(3_000);
    await operatory.openTab();
    // Nobody touches it: the case is taken up, and the microphone was allowed before.
    await operatory.until('ear', /Asleep|Awake/, 60_000);
    const shown = await timer();
    const trueMs = Date.now() - begunMs;
    expect(Math.abs(shown * 1000 - trueMs)).toBeLessThan(2_000);
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
