import { expect, it } from 'vitest';
import { ZIRCONIA_CASE } from '../chair/seatings.ts';
import { Operatory } from './harness.ts';
import { openCase } from './open-case.ts';

it('the opening call comes back from the loudspeaker, and nothing is made of it', async () => {
  // It begins before the ear is open; loud, as where no echo is cancelled.
  const operatory = await Operatory.open({
    room: { echoDb: -12 },
    talk: { utterances: [], noises: [{ kind: 'hiss', snrDb: 35, seed: 3 }], tailMs: 60_000 },
  });
  try {
    await openCase(operatory, ZIRCONIA_CASE);
    const speaking = await operatory.until('ear', /^Speaking$/u, 60_000);
    await operatory.until('ear', /^Asleep$/u, 60_000, speaking);
    // What it made of the last of it, if anything.
    await operatory.page.waitForTimeout(4_000);
    const log = await operatory.log();
    expect(log.filter(({ place, text }) => place === 'heard' && text !== '')).toEqual([]);
    expect(log.filter(({ place, text }) => place === 'alert' && text !== '')).toEqual([]);
    expect(log.findLast(({ place }) => place === 'step')?.text).toBe('Case check');
    expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
  } finally {
    await operatory.close();
  }
});
