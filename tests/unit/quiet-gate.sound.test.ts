import { beforeAll, expect, it } from 'vitest';
import { FRAME_SAMPLES, SEGMENTER } from '../../assistant/ear/vad/constants.ts';
import { RestKeeper } from '../../assistant/ear/rest-keeper.ts';
import { QuietGate } from '../../assistant/ear/vad/quiet-gate.ts';
import type { VadEvent } from '../../assistant/ear/vad/segmenter.ts';
import type { SpeechWeights } from '../../assistant/ear/vad/speech-network.ts';
import { type Gate, OPEN_GATE, VoiceActivity } from '../../assistant/ear/vad/voice-activity.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { VOICES, type VoiceName } from '../speech/index.ts';
import { hiss } from '../speech/noise.ts';
import { buildTimeline, type Noise } from '../speech/timeline.ts';

const RATE = 16_000;
const LEAST_PADDING = Math.min(SEGMENTER.prePadMs, SEGMENTER.postPadMs);
let weights: SpeechWeights;
beforeAll(async () => {
  weights = await loadSpeechWeights();
});

const frames = (pcm: Float32Array): Float32Array[] =>
  Array.from({ length: Math.floor(pcm.length / FRAME_SAMPLES) }, (_, at) =>
    pcm.slice(at * FRAME_SAMPLES, (at + 1) * FRAME_SAMPLES),
  );

function eventsOf(pcm: Float32Array, gate: Gate): VadEvent[] {
  const activity = new VoiceActivity(weights, SEGMENTER, gate);
  return [...frames(pcm).flatMap((one) => activity.push(one)), ...activity.end()];
}

/** As the page gets it: kept back in the audio thread, and looked at where it comes. */
function eventsOfKept(pcm: Float32Array): VadEvent[] {
  const activity = new VoiceActivity(weights, SEGMENTER, OPEN_GATE);
  const events: VadEvent[] = [];
  const keeper = new RestKeeper({
    frameSamples: FRAME_SAMPLES,
    whole: false,
    onHanded: (handed) => {
      if (handed.kind === 'rest') return;
      activity.skip(handed.rested);
      events.push(...activity.push(handed.sound));
      keeper.open = activity.speaking;
    },
  });
  for (const one of frames(pcm)) keeper.push(one);
  return [...events, ...activity.end()];
}

const segments = (events: readonly VadEvent[]) =>
  events.flatMap((event) =>
    event.kind === 'segment' ? [[event.speechStartMs, event.speechEndMs]] : [],
  );

const isVoice = (name: string): name is VoiceName => name in VOICES;

it.each<[string, Noise[]]>([
  ['a quiet room', []],
  ['a hissing room', [{ kind: 'hiss', snrDb: 20, seed: 5 }]],
  ['suction at 5 dB', [{ kind: 'suction', snrDb: 5, seed: 5 }]],
  ['a handpiece at 5 dB', [{ kind: 'handpiece', snrDb: 5, seed: 5 }]],
])(
  'in %s every segment lies where it would lie if every frame were looked at',
  async (_, noises) => {
    const words = ['stop', 'silane on', 'tack it', 'saliva on the inside'];
    const { pcm } = await buildTimeline({
      // Pauses long enough for the gate to close and the room to be forgotten.
      utterances: Object.keys(VOICES)
        .filter(isVoice)
        .filter((_voice, at) => at % 2 === 0)
        .map((voice, at) => ({ atMs: 4_000 + at * 6_000, text: words[at % 4] ?? '', voice })),
      noises,
      tailMs: 2_000,
      rate: RATE,
    });
    const gated = eventsOf(pcm, new QuietGate());
    const [without, withGate] = [segments(eventsOf(pcm, OPEN_GATE)), segments(gated)];
    // Sound and all.
    expect(eventsOfKept(pcm)).toEqual(gated);
    expect(without.length).toBeGreaterThanOrEqual(6);
    expect(withGate.length).toBe(without.length);
    withGate.forEach(([start = 0, end = 0], at) => {
      // What the network remembers of the pause differs a little; a segment is padded by more.
      expect(Math.abs(start - (without[at]?.[0] ?? 0))).toBeLessThanOrEqual(LEAST_PADDING);
      expect(Math.abs(end - (without[at]?.[1] ?? 0))).toBeLessThanOrEqual(LEAST_PADDING);
    });
  },
);

it('a room at rest is not looked at after the first second; one frame of sound opens the gate', () => {
  const gate = new QuietGate();
  const room = frames(hiss(60 * RATE, 3).map((sample) => sample * 0.001));
  const open = room.filter((one) => gate.mayHoldSpeech(one)).length;
  expect((open * FRAME_SAMPLES) / RATE).toBeLessThan(1.5);
  expect(gate.mayHoldSpeech(new Float32Array(FRAME_SAMPLES).fill(0.002))).toBe(true);
});

it('zeros, before a microphone has begun and while it is muted, are not the room', () => {
  const gate = new QuietGate();
  const zeros = frames(new Float32Array(3 * RATE));
  const room = frames(hiss(4 * RATE, 3).map((sample) => sample * 0.001));
  const isOpen = (one: Float32Array): boolean => gate.mayHoldSpeech(one);
  expect(zeros.map(isOpen)).not.toContain(false);
  expect(room.map(isOpen).at(-1)).toBe(false);
  expect(zeros.map(isOpen).at(-1)).toBe(false);
  expect(room.map(isOpen)).not.toContain(true);
});

it('what lasts becomes the room', () => {
  const gate = new QuietGate();
  for (const one of frames(hiss(5 * RATE, 3).map((sample) => sample * 0.001)))
    gate.mayHoldSpeech(one);
  const louder = frames(hiss(30 * RATE, 4).map((sample) => sample * 0.01));
  const open = louder.map((one) => gate.mayHoldSpeech(one));
  expect(open.slice(0, 200)).not.toContain(false);
  expect(open.at(-1)).toBe(false);
});
