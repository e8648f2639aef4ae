/** A person who speaks over one of our calls, which comes back out of the loudspeaker. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import { wholeGrammar } from '../../prompts/phrases/index.ts';
import { saidInRoom } from '../bench/surgery.ts';
import { openNeuralRecogniser } from '../ear/neural.ts';
import { clipOf, heardOver } from '../ear/over-a-call.ts';
import type { VoiceName } from '../speech/index.ts';

const LONG = 'Strong alkali. Gloves and eye protection. Keep it out of the mouth.';
const QUESTION = 'Is that right?';
const ROOM = { noise: null, decibels: 0 } as const;
const CALL_AT_MS = 500;
const AFTER_S = 4;
/** Just later than what may be the call's own echo (`ATTENTION.echoLagMs`). */
const AT_ONCE_MS = ATTENTION.echoLagMs + 5;
const [stop] = ATTENTION.stopPhrases;

let recogniser: Recogniser;
beforeAll(async () => {
  recogniser = await openNeuralRecogniser();
});
afterAll(() => recogniser.close());

async function over(
  call: { readonly text: string; readonly question?: boolean },
  text: string,
  voice: VoiceName,
  atMs: number,
  echoDb: number,
) {
  const around = { before: atMs / 1000, after: AFTER_S };
  const pcm = await saidInRoom(text, voice, ROOM, 1, around);
  const heard = await heardOver(recogniser, {
    pcm,
    call: { ...call, pcm: await clipOf(call.text) },
    callAtMs: CALL_AT_MS,
    echoDb,
    phrases: wholeGrammar(),
  });
  const endMs = (pcm.length * 1000) / 16_000 - AFTER_S * 1000;
  return heard
    .filter(({ kind }) => kind === 'command')
    .map(({ phrase, accepted, givenMs }) => ({ phrase, accepted, delayMs: givenMs - endMs }));
}

const VOICES: readonly VoiceName[] = ['americanWoman', 'britishMan', 'scottishMan'];

describe.each([-36, -24])('the call at %d dB', (echoDb) => {
  it('a stop is taken at once, not when the call is over', async () => {
    for (const voice of VOICES) {
      const taken = await over({ text: LONG }, stop, voice, 2_000, echoDb);
      expect(taken, voice).toMatchObject([{ phrase: stop, accepted: true }]);
      expect(taken[0]?.delayMs, voice).toBeLessThan(400);
    }
  });

  it('so is a command after the call sign, and all of it', async () => {
    for (const voice of VOICES) {
      const taken = await over({ text: LONG }, 'lantern, cleaner off', voice, 1_600, echoDb);
      expect(taken, voice).toMatchObject([{ phrase: 'cleaner off', accepted: true }]);
      expect(taken[0]?.delayMs, voice).toBeLessThan(400);
    }
  });
});

it('an answer that follows our question at once is one, and not a part of it', async () => {
  const question = { text: QUESTION, question: true };
  const endMs = CALL_AT_MS + ((await clipOf(QUESTION)).length * 1000) / 16_000;
  const taken = await over(question, 'yes', 'britishWoman', endMs + AT_ONCE_MS, -24);
  expect(taken).toMatchObject([{ phrase: 'yes', accepted: true }]);
});
