import { describe, expect, it } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { listenToPcm } from '../../assistant/ear/offline.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { isInTurn, saidInRoom, stateLines, type Room } from '../bench/surgery.ts';
import { VOICES, type VoiceName } from '../speech/index.ts';

/** What means something, and what would be bent into it if it were not known. */
const PAIRS = [
  ['cleaner on', 'cleaner off'],
  ['dam on', 'dam off'],
] as const;
const ROOMS: readonly Room[] = [
  { noise: null, decibels: 0 },
  { noise: 'handpiece', decibels: 10 },
];
const SPEAKERS = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);

const [weights, recogniser, lines] = [
  await loadSpeechWeights(),
  await createNeuralRecogniser(await loadNeuralWeights()),
  await stateLines(),
];

it('"it\'s down" that sounds like "it\'s home" in suction is asked back, not let go', async () => {
  const moment = lines.find((line) => isInTurn(line, "it's down") && !isInTurn(line, "it's home"));
  const phrases = moment?.phrases ?? '';
  const room: Room = { noise: 'suction', decibels: 10 };
  const around = { before: 1, after: 1 };
  const words = `${ATTENTION.callSign}, it's down`;
  const [heard, letGo]: [string[], string[]] = [[], []];
  // Of these, the first is sure, and the second comes closer to the other phrase.
  for (const seed of [1, 2]) {
    const pcm = await saidInRoom(words, 'scottishMan', room, seed, around);
    const standing = (): { phrases: string; sounding: [] } => ({ phrases, sounding: [] });
    for await (const { kind, phrase } of listenToPcm(pcm, recogniser, { weights, standing }))
      (kind === 'command' ? heard : letGo).push(phrase ?? '');
  }
  expect({ heard, letGo }).toEqual({ heard: ["it's down", "it's down"], letGo: [] });
});

describe.each(PAIRS)('while "%s" means something', (inTurn, outOfTurn) => {
  const moment = lines.find((line) => isInTurn(line, inTurn) && !isInTurn(line, outOfTurn));

  it(`"${outOfTurn}" changes nothing and is told apart, in every voice`, async () => {
    const phrases = moment?.phrases ?? '';
    const taken: string[] = [];
    let told = 0;
    for (const [index, speaker] of SPEAKERS.entries()) {
      const room = ROOMS[index % ROOMS.length] ?? { noise: null, decibels: 0 };
      const words = `${ATTENTION.callSign}, ${outOfTurn}`;
      const around = { before: 1, after: 1 };
      const pcm = await saidInRoom(words, speaker, room, index + 1, around);
      const standing = (): { phrases: string; sounding: [] } => ({ phrases, sounding: [] });
      for await (const heard of listenToPcm(pcm, recogniser, { weights, standing })) {
        if (heard.kind === 'command') taken.push(`${speaker}: ${heard.phrase}`);
        if (heard.why === 'out of turn' && heard.phrase === outOfTurn) told++;
      }
    }
    expect(taken).toEqual([]);
    expect(told).toBeGreaterThanOrEqual(SPEAKERS.length - 2);
  });
});
