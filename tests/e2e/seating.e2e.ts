/**
 * Whole appointments by voice in real Chromium. The microphone is a sound file (the hiss of the
 * room), a person speaks into it in real time, and Seatcall's own voice comes back into
 * it. Recogniser, store and voice are the app's own; after the microphone was allowed nobody
 * touches anything. The whole talks as one sound file are rehearsed in `chair.sound.test.ts`; this
 * one takes ten minutes and a quiet machine, and is run by `npm run appointments`.
 */
import { expect, test } from 'vitest';
import type { CaseFile } from '../../machines/contract/index.ts';
import type { Verified } from '../../machines/record/index.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import type { Talk } from '../chair/talk.ts';
import type { VoiceName } from '../speech/index.ts';
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

/** Who seats the zirconia crown and who the lithium disilicate one; both side by side. */
const VOICES: readonly (readonly [zirconia: VoiceName, disilicate: VoiceName])[] = [
  ['americanWoman', 'americanMan'],
  ['britishMan', 'britishWoman'],
];

test.each(VOICES)('both crowns are seated by voice alone: %s, %s', async (one, other) => {
  const [zirconia, disilicate] = await Promise.all([
    performed(ZIRCONIA_CASE, seatZirconia, one),
    performed(DISILICATE_CASE, seatDisilicate, other),
  ]);
  for (const { person, record } of [zirconia, disilicate]) {
    expect(record.closing?.kind).toBe('closing');
    // Nothing but the voice: no touch, no key.
    expect(new Set(record.entries.map(({ stamp }) => stamp.via))).toEqual(new Set(['voice']));
    // How often is for the benchmarks; that it was said again is for whoever reads this run.
    const { lines, repeated, askedBack } = person;
    process.stdout.write(
      `${lines.length} lines, ${repeated.length} said again, ${askedBack.length} asked back: ${[...repeated, ...askedBack].join(', ')}\n`,
    );
  }
  expect(zirconia.said).toContain('Never in the mouth. It burns.');
  expect(disilicate.said).toContain('Only etching takes silicone off.');
});
