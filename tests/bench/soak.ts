/**
 * Four hours of a working surgery through the whole listening path, faster than real time:
 * `npm run soak -- [--hours 4] [--no-call-sign] [--seed 1]`. Noise all the time, people talking
 * several times a minute (invented sentences in synthesised voices; the human orders where they
 * lie beside the repository), nobody of them to Seatcall, every phrase active. Every command is
 * then a false one. Ends with 1 when there was one, when memory grew, or when hearing stalled.
 */
import { existsSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { Listener } from '../../assistant/ear/listener.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { FRAME_SAMPLES } from '../../assistant/ear/vad/constants.ts';
import { VoiceActivity } from '../../assistant/ear/vad/voice-activity.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { wholeGrammar } from '../../prompts/phrases/index.ts';
import { speak, VOICES, type VoiceName } from '../speech/index.ts';
import { amplitude, chance, handpiece, hiss, rms, suction } from '../speech/noise.ts';
import { readOrders } from './orders.ts';

const { values } = parseArgs({
  options: {
    hours: { type: 'string', default: '4' },
    'no-call-sign': { type: 'boolean', default: false },
    seed: { type: 'string', default: '1' },
  },
});
const HOURS = Number(values.hours);
const CALL_SIGN = values['no-call-sign'] ? null : ATTENTION.callSign;
const SHARED = fileURLToPath(new URL('../../../shared/voice', import.meta.url));
const OUT = fileURLToPath(new URL('../.out/', import.meta.url));

/** Growth of memory from the second report to the last that is no leak, MB. */
const GROWTH_MB = 60;
/** No segment may take as long as this: a listener would have given it up, ms. */
const STALL_MS = 10_000;

/** Invented talk of a surgery: patient, assistant, the next room. Nothing of it is for Seatcall. */
const TALK = [
  'open a little wider for me please',
  'are you comfortable there',
  'you may feel some cold water now',
  'raise your left hand if anything hurts',
  'did you have a nice weekend',
  'the traffic on the bridge was terrible this morning',
  'my daughter starts school in september',
  'could you turn towards me a little',
  'that tooth has been bothering me since christmas',
  'can you pass me the mirror and the probe',
  'we will see you again in six months',
  'who is next on the list after lunch',
  'the laboratory called about the bridge',
  'is the porcelain going to look natural',
  'how much will this cost me in the end',
  'she said she would bring the forms on friday',
  'I think we should order more gloves',
  'rinse and spit if you would like to',
  'try to breathe through your nose',
  'almost there you are doing very well',
  'it is a bit high on the left side I think',
  'the radio is too loud in there',
  'bite together gently and slide around',
  'does it feel like your own tooth',
  'please hold the suction over here',
  'we are out of the small brushes again',
  'they changed the parking rules last week',
  'your blood pressure was fine today',
  'let me have a look at the other side',
  'it was raining when I left the house',
  'I will write you a prescription for that',
  'keep your tongue away from the tooth',
  'the colour matches the neighbour nicely',
  'can I eat normally this evening',
  'leave the light on in the corridor',
  'next week would suit me better',
] as const;

const isVoice = (name: string): name is VoiceName => name in VOICES;
const next = chance(Number(values.seed));
const pick = <T>(list: readonly T[]): T => {
  const found = list[Math.floor(next() * list.length)];
  if (found === undefined) throw new Error('nothing to pick from');
  return found;
};

const MINUTE = 60 * SAMPLE_RATE;
const voices = Object.keys(VOICES).filter(isVoice);
const orders = existsSync(SHARED) ? await readOrders(SHARED, 1) : [];
const noises = [
  hiss(MINUTE, 1).map((x) => x * amplitude(-58)),
  suction(MINUTE, SAMPLE_RATE, 2).map((x) => x * amplitude(-42)),
  handpiece(MINUTE, SAMPLE_RATE, 3).map((x) => x * amplitude(-40)),
];

/** A minute of the surgery: a noise, and people talking over it now and then. */
async function minute(): Promise<Float32Array> {
  const pcm = Float32Array.from(pick(noises));
  for (let at = Math.floor(next() * 8 * SAMPLE_RATE); at < MINUTE;) {
    const human = orders.length > 0 && next() < 0.3;
    const said = human
      ? pick(orders).pcm
      : await speak(pick(TALK), pick(voices), { stretch: pick([0.9, 1, 1.1]) });
    const level = amplitude(-24 - 12 * next()) / Math.max(rms(said), 1e-6);
    for (let i = 0; i < said.length && at + i < MINUTE; i += 1)
      pcm[at + i] = (pcm[at + i] ?? 0) + (said[i] ?? 0) * level;
    at += said.length + Math.floor((1 + 20 * next()) * SAMPLE_RATE);
  }
  return pcm;
}

const recogniser = await createNeuralRecogniser({ ...(await loadNeuralWeights()), threads: 1 });
const listener = new Listener({
  recogniser,
  attention: { ...ATTENTION, callSign: CALL_SIGN },
  phrases: wholeGrammar(),
  now: () => performance.now(),
  lateMs: Infinity,
});
const vad = new VoiceActivity(await loadSpeechWeights());

const began = performance.now();
const falseOnes: string[] = [];
const memory: number[] = [];
let [segments, speechMs, slowest] = [0, 0, 0];
const minutes = Math.round(HOURS * 60);
for (let at = 1; at <= minutes; at += 1) {
  const pcm = await minute();
  for (let from = 0; from < pcm.length; from += FRAME_SAMPLES) {
    for (const event of vad.push(pcm.subarray(from, from + FRAME_SAMPLES))) {
      if (event.kind === 'pause') listener.hearAhead(event.segment);
      if (event.kind !== 'segment') continue;
      const hearing = await listener.hear(event);
      segments += 1;
      speechMs += hearing.endMs - hearing.startMs;
      slowest = Math.max(slowest, hearing.decodeMs);
      if (hearing.kind !== 'ignored')
        falseOnes.push(`${at} min: ${hearing.kind} "${hearing.phrase}" ${hearing.score}`);
    }
  }
  if (at % 30 !== 0 && at !== minutes) continue;
  globalThis.gc?.();
  memory.push(Math.round(process.memoryUsage().rss / 1e6));
  const times = ((at * 60_000) / (performance.now() - began)).toFixed(1);
  console.log(
    `${at} min: ${segments} segments, ${Math.round(speechMs / 60_000)} min of speech, ` +
      `${falseOnes.length} false, ${memory.at(-1)} MB, slowest ${Math.round(slowest)} ms, ` +
      `${times} times real time`,
  );
}
await recogniser.close();

const growth = (memory.at(-1) ?? 0) - (memory[1] ?? memory[0] ?? 0);
const report = {
  hours: HOURS,
  callSign: CALL_SIGN,
  seed: Number(values.seed),
  humanOrders: orders.length,
  segments,
  speechHours: speechMs / 3_600_000,
  falseOnes,
  perHourOfSpeech: falseOnes.length / (speechMs / 3_600_000),
  memoryMb: memory,
  slowestMs: Math.round(slowest),
};
await mkdir(OUT, { recursive: true });
await writeFile(
  `${OUT}soak-${CALL_SIGN ?? 'no-call-sign'}.json`,
  `${JSON.stringify(report, null, 2)}\n`,
);
for (const one of falseOnes) console.log(one);
const amiss = [
  ...(falseOnes.length > 0 ? [`${falseOnes.length} false commands`] : []),
  ...(growth > GROWTH_MB ? [`memory grew by ${growth} MB`] : []),
  ...(slowest > STALL_MS ? [`a segment took ${Math.round(slowest)} ms`] : []),
];
console.log(amiss.length === 0 ? 'soak: nothing amiss' : `soak: ${amiss.join(', ')}`);
process.exitCode = amiss.length === 0 ? 0 : 1;
