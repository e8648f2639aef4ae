import { describe, expect, it } from 'vitest';
import type { Call, Entry } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import type { Hearing } from '../../assistant/ear/listener.ts';
import { takeHearing } from '../../assistant/session/hear-command.ts';
import { Session } from '../../assistant/session/session.ts';
import { headerOf } from '../../assistant/session/start.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { ZIRCONIA_CASE } from '../chair/seatings.ts';

const WALL = '2026-03-02T09:00:00.000Z';

/** A session on an invented crown, with what it said and wrote. */
function openSession() {
  const [said, written]: [Call[], Entry[]] = [[], []];
  const session = Session.open(headerOf(ZIRCONIA_CASE, makePlan(ZIRCONIA_CASE), WALL), {
    keeper: {
      append: async (line) => {
        if ('command' in line) written.push(line);
      },
    },
    time: { now: () => ({ at: 5_000, wall: WALL, mono: 5_000 }) },
    say: (calls) => said.push(...calls),
    hush: () => undefined,
    schedule: () => undefined,
    onChange: () => undefined,
    seal: () => Promise.reject(new Error('nothing is closed here')),
    who: 'dentist',
  });
  said.length = 0;
  return { session, said, written };
}

const outOfTurn = (phrase: string): Hearing => ({
  kind: 'ignored',
  phrase,
  score: 0.9,
  startMs: 0,
  endMs: 900,
  decodeMs: 100,
  accepted: false,
  sure: true,
  why: 'out of turn',
});

describe('a step said out of turn', () => {
  it('that would be refused is, aloud and in the record', async () => {
    const { session, said, written } = openSession();
    const taken = await takeHearing(session, outOfTurn('cleaner off'));
    expect(taken).toMatchObject({ kind: 'command', outcome: 'refused' });
    expect(said).toMatchObject([{ id: 'refusal', refusal: { id: 'no-dwell', step: 'cleaner' } }]);
    expect(written).toMatchObject([{ outcome: { kind: 'refused' } }]);
  });

  it('that could be carried out is not', async () => {
    const { session, said, written } = openSession();
    expect(commandFor('polishing now', session.live)).toBeNull();
    expect(await takeHearing(session, outOfTurn('polishing now'))).toEqual({ kind: 'ignored' });
    expect([said, written]).toEqual([[], []]);
  });
});

it('an answer that nobody waits for is left alone', async () => {
  const { session, said, written } = openSession();
  expect(await takeHearing(session, outOfTurn('yes'))).toEqual({ kind: 'ignored' });
  expect([said, written]).toEqual([[], []]);
});
