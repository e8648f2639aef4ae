/**
 * Somebody speaks while a call comes back out of the loudspeaker: `npx tsx tests/bench/barge-in.ts
 * [--echo 36,24] [--after 2] [--noise suction --decibels 10]`. In all voices, masked, in the middle of a call of eight seconds: a bare
 * "stop", and lines of the appointments after the call sign. How many were taken as meant, taken
 * wrongly or asked back, and how long after the end of the words their segment was complete.
 */
import { parseArgs } from 'node:util';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { type Pcm, SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { clipOf, type HeardOver, heardOver } from '../ear/over-a-call.ts';
import { type VoiceName, VOICES } from '../speech/index.ts';
import { type Room, saidInRoom, stateLines } from './surgery.ts';

const { values } = parseArgs({
  options: {
    /** How loud the call comes back, decibels below as it is played. */
    echo: { type: 'string', default: '60,46,36,30,24,18' },
    /** When the words begin, seconds after the call. */
    after: { type: 'string', default: '2' },
    /** What else sounds, and how far it is below the words, decibels. */
    noise: { type: 'string', default: 'none' },
    decibels: { type: 'string', default: '10' },
  },
});
const { noise: asked } = values;
const room: Room = {
  noise: asked === 'suction' || asked === 'handpiece' ? asked : null,
  decibels: Number(values.decibels),
};
const CALL = [
  'Strong alkali. Gloves and eye protection. Keep it out of the mouth.',
  'Saliva blocks the primer, and water does not take it off.',
] as const;
const CALL_AT_MS = 1_000;
/** Long enough for the call to end. */
const AFTER_S = 8;
const GAP = new Float32Array(0.1 * SAMPLE_RATE);
const LINES_APART = 11;

const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
const lines = await stateLines();
const clips = await Promise.all(CALL.map(clipOf));
const call: Pcm = Float32Array.from(clips.flatMap((clip) => [...clip, ...GAP]));
const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
const [stop] = ATTENTION.stopPhrases;

interface Said {
  readonly text: string;
  readonly words: string;
  readonly phrases: string;
  readonly voice: VoiceName;
  readonly seed: number;
}

const stops = voices.map((voice, at): Said => {
  const phrases = lines[at * LINES_APART]?.phrases ?? '';
  return { text: stop, words: stop, phrases, voice, seed: at + 1 };
});
const commands = [0, 1, 2].flatMap((round) =>
  voices.flatMap((voice, at): readonly Said[] => {
    const line = lines[(at * LINES_APART + round * 5) % lines.length];
    if (line === undefined) return [];
    const text = `${ATTENTION.callSign}, ${line.words}`;
    return [{ ...line, text, voice, seed: at + 1 }];
  }),
);

const told = ({ kind, phrase, score, why }: HeardOver): string =>
  [kind, phrase, score?.toFixed(2), why].filter(Boolean).join(' ');

async function measure(what: string, all: readonly Said[], echoDb: number): Promise<void> {
  const counts = { right: 0, wrong: 0, asked: 0 };
  const delays: number[] = [];
  const notRight: string[] = [];
  for (const { text, words, phrases, voice, seed } of all) {
    const around = { before: CALL_AT_MS / 1000 + Number(values.after), after: AFTER_S };
    const pcm = await saidInRoom(text, voice, room, seed, around);
    const heard = await heardOver(recogniser, {
      pcm,
      call: { text: CALL.join(' '), pcm: call },
      callAtMs: CALL_AT_MS,
      echoDb,
      phrases,
    });
    const meant = JSON.stringify(commandFor(words));
    const taken = heard.filter(({ kind }) => kind === 'command');
    const right = taken.find(({ phrase }) => JSON.stringify(commandFor(phrase ?? '')) === meant);
    if (right?.accepted === true) {
      counts.right++;
      delays.push(right.givenMs - (pcm.length / SAMPLE_RATE - AFTER_S) * 1000);
    } else if (right !== undefined) counts.asked++;
    if (taken.some((one) => one !== right)) counts.wrong++;
    if (right?.accepted !== true || taken.length > 1)
      notRight.push(`    ${voice} "${words}": ${heard.map(told).join('; ')}\n`);
  }
  const sorted = delays.toSorted((a, b) => a - b);
  const at = (share: number): string =>
    (sorted[Math.ceil(sorted.length * share) - 1] ?? NaN).toFixed(0);
  process.stdout.write(
    `${what}, call at ${echoDb} dB, of ${all.length}: right ${counts.right}, wrong ${counts.wrong}, ` +
      `asked ${counts.asked}; complete after ${at(0.5)} ms, at worst ${at(1)} ms\n${notRight.join('')}`,
  );
}

for (const below of values.echo.split(',')) {
  await measure('stop', stops, -Number(below));
  await measure('commands', commands, -Number(below));
}
await recogniser.close();
