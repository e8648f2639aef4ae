/**
 * Prints how many recorded orders voice activity finds, and finds in one piece, by how loud their
 * speech is (docs/ear.md). Under them lies a microphone's own hiss, invented, 16-bit sound.
 * Usage: npx tsx tests/bench/faint.ts [folder of recordings] [every n-th clip]
 */
import { existsSync } from 'node:fs';
import { speechLevel } from '../../assistant/ear/faint.ts';
import { SEGMENTER } from '../../assistant/ear/vad/constants.ts';
import { Segmenter, type SpeechSegment } from '../../assistant/ear/vad/segmenter.ts';
import { FRAME_SAMPLES, network } from './vad-detectors.ts';
import { orders, seeded, speechBounds } from './vad-sounds.ts';

const HISS_DBFS = -75;
const LEVELS_DBFS = [-30, -40, -45, -50, -55, -60, -65];
const QUIET_SAMPLES = 16_000;

const amplitude = (dbfs: number): number => 10 ** (dbfs / 20);

/** `clip` with its speech at `dbfs`, a second of hiss on either side. */
function faint(clip: Float32Array, dbfs: number, random: () => number): Float32Array {
  const { from, to } = speechBounds(clip);
  const power = clip.subarray(from, to).reduce((sum, x) => sum + x * x, 0) / (to - from);
  const gain = amplitude(dbfs) / Math.sqrt(power);
  // Even noise from -1 to 1 has an rms of 1/sqrt(3).
  const hiss = amplitude(HISS_DBFS) * Math.sqrt(3);
  return Float32Array.from({ length: clip.length + 2 * QUIET_SAMPLES }, (_, i) => {
    const sound = (clip[i - QUIET_SAMPLES] ?? 0) * gain + (random() * 2 - 1) * hiss;
    return Math.round(Math.max(-1, Math.min(1, sound)) * 32_767) / 32_767;
  });
}

function cut(sound: Float32Array): readonly SpeechSegment[] {
  const detector = network('v6')();
  const segmenter = new Segmenter(SEGMENTER);
  const segments: SpeechSegment[] = [];
  for (let at = 0; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES) {
    const frame = sound.subarray(at, at + FRAME_SAMPLES);
    for (const event of segmenter.push(frame, detector(frame)))
      if (event.kind === 'segment') segments.push(event);
  }
  return segments;
}

const [folder = '../shared/voice', every = '4'] = process.argv.slice(2);
if (!existsSync(`${folder}/orders`)) throw new Error(`no recordings in ${folder}`);
const clips = orders(folder).clips.filter((_, i) => i % Number(every) === 0);

console.log(
  '| speech, dBFS | found | in one piece | start cut by 0.1 s | level told, lowest to highest |',
);
console.log('| --: | --: | --: | --: | --: |');
for (const dbfs of LEVELS_DBFS) {
  const random = seeded(5);
  const cuts = clips.map((clip) => ({
    segments: cut(faint(clip, dbfs, random)),
    fromMs: (speechBounds(clip).from + QUIET_SAMPLES) / 16,
  }));
  const found = cuts.filter(({ segments }) => segments.length > 0);
  const whole = cuts.filter(({ segments }) => segments.length === 1);
  const late = found.filter(({ segments, fromMs }) => (segments[0]?.startMs ?? 0) > fromMs + 100);
  const levels = found.flatMap(({ segments }) => segments.map(speechLevel));
  console.log(
    `| ${dbfs} | ${found.length}/${clips.length} | ${whole.length} | ${late.length} | ${Math.min(...levels).toFixed(0)} to ${Math.max(...levels).toFixed(0)} |`,
  );
}
