import { describe, expect, it } from 'vitest';
import { courseOf } from '../../machines/export/course.ts';
import { base64, nameOfDigest } from '../../machines/export/fhir-parts.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';
import { Operatory } from '../chair/operatory.ts';
import { recordOfChair } from '../seated-record.ts';

async function courseAt(chair: Operatory, closed = false) {
  const { header, entries } = await recordOfChair(chair, closed);
  return courseOf(header, entries, closed);
}

/** What is told of a step, without its titles and windows. */
async function told(chair: Operatory, step: string, closed = false) {
  const { performances } = await courseAt(chair, closed);
  return performances
    .filter((one) => one.step === step)
    .map(({ tooth, status, start, end, servedS, entries, deviations }) => ({
      tooth,
      status,
      from: start?.slice(11, 19) ?? null,
      to: end?.slice(11, 19) ?? null,
      servedS,
      entries,
      kinds: deviations.map(({ kind }) => kind),
    }));
}

const opened = () => new Operatory(inventedCase([ZIRCONIA]));

describe('the course of a case', () => {
  it('has a step that was done, skipped with a reason, taken back, and never begun', async () => {
    const chair = opened();
    chair.wait(5).must({ type: 'finish', step: 'case-check' });
    chair.wait(5).must({ type: 'finish', step: 'history' });
    chair.wait(1).must({ type: 'undo' });
    expect(await told(chair, 'case-check')).toEqual([
      {
        tooth: '46',
        status: 'completed',
        from: null,
        to: '09:00:05',
        servedS: null,
        entries: [1],
        kinds: [],
      },
    ]);
    expect(await told(chair, 'history')).toMatchObject([
      { status: 'entered-in-error', entries: [2] },
    ]);
    chair.say({ type: 'skip', step: 'shade-photo' });
    chair.say({ type: 'reason', reason: 'not-available' });
    chair.say({ type: 'confirm' });
    expect(await told(chair, 'shade-photo')).toMatchObject([
      { status: 'not-done', kinds: ['skipped'] },
    ]);
    expect(await told(chair, 'seat')).toEqual([]);
  });

  it('goes on where a dwell’s end was taken back, and stops with the case', async () => {
    const chair = opened();
    chair.wait(5).must({ type: 'begin', step: 'cleaner' });
    chair.wait(25).must({ type: 'finish', step: 'cleaner' });
    const whole = {
      tooth: '46',
      status: 'completed',
      from: '09:00:05',
      to: '09:00:30',
      servedS: 25,
      entries: [1, 2],
      kinds: [],
    };
    expect(await told(chair, 'cleaner')).toEqual([whole]);
    chair.must({ type: 'undo' });
    const going = { ...whole, status: 'in-progress', to: null, servedS: null };
    expect(await told(chair, 'cleaner')).toEqual([going]);
    expect(await told(chair, 'cleaner', true)).toEqual([{ ...going, status: 'stopped' }]);
    chair.must({ type: 'undo' });
    expect(await told(chair, 'cleaner')).toMatchObject([{ status: 'entered-in-error' }]);
  });

  it('keeps two units apart', async () => {
    const chair = new Operatory(inventedCase([ZIRCONIA, DISILICATE]));
    chair.must({ type: 'finish', step: 'case-check' });
    const { performances } = await courseAt(chair);
    expect(performances.every(({ scope }) => scope === 'case')).toBe(true);
  });

  it('says from which entry on today’s rules answer otherwise', async () => {
    const chair = opened();
    chair.must({ type: 'finish', step: 'case-check' });
    chair.must({ type: 'finish', step: 'history' });
    const { header, entries } = await recordOfChair(chair, false);
    const other = entries.map((entry) =>
      entry.n === 2 ? { ...entry, outcome: { kind: 'asked' as const } } : entry,
    );
    const course = courseOf(header, other, false);
    expect(course.differsAt).toBe(2);
    expect(course.performances.map(({ step }) => step)).toEqual(['case-check']);
  });
});

describe('names and spellings', () => {
  it('RFC 4648, section 10: the samples of base64', () => {
    const spelled = ['', 'f', 'fo', 'foo', 'foob', 'fooba', 'foobar'].map((word) =>
      base64(new TextEncoder().encode(word)),
    );
    expect(spelled).toEqual(['', 'Zg==', 'Zm8=', 'Zm9v', 'Zm9vYg==', 'Zm9vYmE=', 'Zm9vYmFy']);
  });

  it('RFC 6920, section 8.1: the name of "Hello World!"', () => {
    const hex = '7f83b1657ff1fc53b92dc18148a1d65dfc2d4b1fa3d677284addd200126d9069';
    expect(nameOfDigest(hex)).toBe('ni:///sha-256;f4OxZX_x_FO5LcGBSKHWXfwtSx-j1ncoSt3SABJtkGk');
  });
});
