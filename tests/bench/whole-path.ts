/**
 * Lines of the appointments the whole way: `npm run bench:path -- [--states N] [--lead SECONDS] [--only lines,stops]`.
 * In all voices by turns, masked, after the call sign, in a room whose suction or handpiece has been
 * running for a while: through voice activity, attention and the recogniser, as the page has them.
 * Prints what was taken rightly and wrongly, asked back, and how many had more or less than one
 * segment; and the same of a bare "stop", once in each voice.
 */
import { parseArgs } from 'node:util';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { listenToPcm, type OfflineHearing } from '../../assistant/ear/offline.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { type VoiceName, VOICES } from '../speech/index.ts';
import { type Room, saidInRoom, stateLines } from './surgery.ts';

const { values } = parseArgs({
  options: {
    states: { type: 'string', default: '3' },
    lead: { type: 'string', default: '15' },
    only: { type: 'string', default: 'lines,stops' },
  },
});
const AFTER_S = 1.5;
const ROOMS: readonly Room[] = [
  { noise: null, decibels: 0 },
  ...[20, 10, 5].flatMap((decibels): Room[] => [
    { noise: 'suction', decibels },
    { noise: 'handpiece', decibels },
  ]),
];

const [weights, recogniser] = [
  await loadSpeechWeights(),
  await createNeuralRecogniser(await loadNeuralWeights()),
];
const lines = (await stateLines()).filter((_, index) => index % Number(values.states) === 0);
const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
const around = { before: Number(values.lead), after: AFTER_S };

interface Said {
  readonly words: string;
  readonly phrases: string;
  readonly voice: VoiceName;
  /** Left out before a stop. */
  readonly callSign: string | null;
}

const commands = lines.map(({ words, phrases }, index): Said => {
  const voice = voices[(index * 5) % voices.length] ?? 'americanMan';
  return { words, phrases, voice, callSign: ATTENTION.callSign };
});
const [stop] = ATTENTION.stopPhrases;
const stops = voices.map((voice, index): Said => {
  const phrases = lines[index % lines.length]?.phrases ?? '';
  return { words: stop, phrases, voice, callSign: null };
});

async function hear({ words, phrases, voice, callSign }: Said, room: Room, seed: number) {
  const text = callSign === null ? words : `${callSign}, ${words}`;
  const pcm = await saidInRoom(text, voice, room, seed, around);
  const hearings: OfflineHearing[] = [];
  const standing = (): { phrases: string; sounding: [] } => ({ phrases, sounding: [] });
  for await (const hearing of listenToPcm(pcm, recogniser, { weights, standing }))
    hearings.push(hearing);
  return hearings;
}

const told = ({ kind, phrase, score }: OfflineHearing): string =>
  `${kind} ${phrase ?? ''} ${score?.toFixed(2) ?? ''}`;

async function measure(what: string, all: readonly Said[], room: Room): Promise<void> {
  const counts = { right: 0, wrong: 0, asked: 0, parted: 0, unfound: 0 };
  const notRight: string[] = [];
  for (const [index, said] of all.entries()) {
    const hearings = await hear(said, room, index + 1);
    const meant = JSON.stringify(commandFor(said.words));
    const isMeant = ({ phrase }: OfflineHearing): boolean =>
      phrase !== null && JSON.stringify(commandFor(phrase)) === meant;
    const found = hearings.filter(({ kind }) => kind === 'command');
    const accepted = found.filter((one) => one.accepted);
    if (hearings.length === 0) counts.unfound++;
    if (hearings.length > 1) counts.parted++;
    const isRight = accepted.length > 0 && accepted.every(isMeant);
    if (isRight) counts.right++;
    else if (accepted.length > 0) counts.wrong++;
    else if (found.some(isMeant)) counts.asked++;
    if (!isRight) notRight.push(`${said.voice} "${said.words}": ${hearings.map(told).join(' + ')}`);
  }
  const where = `${what}, ${room.noise ?? 'quiet'}${room.noise === null ? '' : ` ${room.decibels} dB`}`;
  const numbers = Object.entries(counts).map(([name, count]) => `${name} ${count}`);
  process.stdout.write(`${where.padEnd(26)} of ${all.length}: ${numbers.join(', ')}\n`);
  for (const one of notRight) process.stdout.write(`    ${one}\n`);
}

const only = values.only.split(',');
for (const room of ROOMS) {
  if (only.includes('lines')) await measure('lines', commands, room);
  if (only.includes('stops')) await measure('bare stop', stops, room);
}
await recogniser.close();
