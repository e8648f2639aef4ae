/** The ear without the rest of Seatcall, for ear.e2e.ts to drive. */
import speechWeights from '../../../node_modules/@ricky0123/vad-web/dist/silero_vad_v6.onnx?url';
import { Microphone } from '../../../assistant/ear/microphone.ts';
import { SEGMENTER } from '../../../assistant/ear/vad/constants.ts';
import { QuietGate } from '../../../assistant/ear/vad/quiet-gate.ts';
import type { SpeechSegment } from '../../../assistant/ear/vad/segmenter.ts';
import { OPEN_GATE, VoiceActivity } from '../../../assistant/ear/vad/voice-activity.ts';
import { fetchSpeechWeights } from '../../../assistant/ear/vad/weights-browser.ts';
import { openWakeWord } from '../../../assistant/ear/wake/index.ts';
import { browserChannel } from '../../../assistant/ear/worker/browser-channel.ts';
import { WorkerRecogniser } from '../../../assistant/ear/worker/worker-recogniser.ts';
import { written } from '../../ear/written-recogniser.ts';

/** Troubles told so far by the last `listen`. */
let happened: string[] = [];

type Span = Pick<SpeechSegment, 'speechStartMs' | 'speechEndMs'> & { givenMs: number };

/** A piece of sound as it came, or of a room at rest that did not; and where in the stream it ends. */
type Piece = { kind: 'sound' | 'rest'; samples: number; endMs: number };

/** What the microphone gave in `ms`, all sound if `whole`; `meanwhile` runs once it is open. */
async function listen(ms: number, whole = false, meanwhile: () => void = () => undefined) {
  const weights = await fetchSpeechWeights(speechWeights);
  const microphone = new Microphone(null, whole);
  let vad = new VoiceActivity(weights);
  const segments: Span[] = [];
  const pieces: Piece[] = [];
  let restedAfter = 0;
  happened = earPage.happened = [];
  let samples = 0;
  let starts = 0;
  let peak = 0;
  let busyMs = 0;
  await microphone.start({
    onStart: (keepsBack) => {
      vad = new VoiceActivity(weights, SEGMENTER, keepsBack ? OPEN_GATE : new QuietGate());
      samples = 0;
      restedAfter = 0;
      starts += 1;
    },
    onRest: (_, rested) => {
      const endMs = (samples + rested) / 16;
      pieces.push({ kind: 'rest', samples: rested - restedAfter, endMs });
      restedAfter = rested;
    },
    onSound: (sound, rested) => {
      const began = performance.now();
      restedAfter = 0;
      samples += rested + sound.length;
      pieces.push({ kind: 'sound', samples: sound.length, endMs: samples / 16 });
      peak = Math.max(peak, ...sound);
      vad.skip(rested);
      for (const event of vad.push(sound)) {
        if (event.kind !== 'segment') continue;
        const { speechStartMs, speechEndMs } = event;
        segments.push({ speechStartMs, speechEndMs, givenMs: samples / 16 });
      }
      microphone.speaking(vad.speaking);
      busyMs += performance.now() - began;
    },
    onTrouble: ({ kind, detail }) => happened.push(`${kind}: ${detail.split(':')[0]}`),
    onWell: (kind) => happened.push(`well: ${kind}`),
  });
  meanwhile();
  await new Promise((resolve) => setTimeout(resolve, ms));
  await microphone.stop();
  const seconds = (samples + restedAfter) / 16_000;
  return { segments, pieces, happened, starts, peak, seconds, busyShare: busyMs / ms };
}

/** Stops while the microphone is being opened; the state of what was opened. */
async function stopAtOnce() {
  const microphone = new Microphone();
  const nothing = (): void => undefined;
  const asked = new Promise<void>((resolve) => (whenAsked = resolve));
  const starting = microphone.start({
    onStart: nothing,
    onSound: nothing,
    onRest: nothing,
    onTrouble: nothing,
    onWell: nothing,
  });
  await asked;
  await microphone.stop();
  await starting;
  return opened?.getTracks().map((track) => track.readyState);
}

/** The stream that the page opened last, and what runs when it asks for one. */
let opened: MediaStream | undefined;
let whenAsked = (): void => undefined;
const { mediaDevices } = navigator;
const getUserMedia = mediaDevices.getUserMedia.bind(mediaDevices);
mediaDevices.getUserMedia = async (constraints) => {
  const opening = getUserMedia(constraints);
  whenAsked();
  return (opened = await opening);
};

/** Listens while the device goes away and comes back. */
const listenThroughLoss = (ms: number) =>
  listen(ms, false, () => {
    const track = opened?.getAudioTracks()[0];
    // What the browser does when a device is pulled out; a script can only tell of it.
    setTimeout(() => track?.dispatchEvent(new Event('ended')), ms / 2);
  });

/** Kills the worker in the middle of a segment; ms until it answers again, and what it heard. */
async function killWorker() {
  const workers: Worker[] = [];
  const deaths: string[] = [];
  const recogniser = new WorkerRecogniser<string>({
    engine: 'written',
    openChannel: browserChannel(() => {
      const worker = new Worker(new URL('written.worker.ts', import.meta.url), { type: 'module' });
      workers.push(worker);
      return worker;
    }),
    clock: {
      now: () => performance.now(),
      at(dueMs, task) {
        const timer = setTimeout(task, dueMs - performance.now());
        return () => clearTimeout(timer);
      },
    },
    onDeath: (why) => deaths.push(why),
    onReady: () => undefined,
  });
  await recogniser.load('#JSGF V1.0; grammar g; public <a> = seating | next step;');
  const first = await recogniser.hear(written('seating'));
  // Time for the page to find the lock held: a worker is not killed in its first moment here.
  await new Promise((resolve) => setTimeout(resolve, 300));
  const began = performance.now();
  workers[0]?.terminate();
  const second = await recogniser.hear(written('next step'));
  const tookMs = performance.now() - began;
  await recogniser.close();
  return { first, second, tookMs, deaths, workers: workers.length };
}

/** Sets the keyed wake word up as given and says what comes of it. */
async function wake(accessKey: string, keyword: string) {
  const told: string[] = [];
  const { words } = await openWakeWord(
    'lantern',
    {
      accessKey,
      model: Uint8Array.from({ length: 2_000 }, (_, i) => i % 251),
      keyword: { kind: 'builtin', name: keyword },
      sensitivity: 0.5,
    },
    {
      onWake: () => undefined,
      onTrouble: ({ sentence, remedy }) => told.push(sentence, remedy),
    },
  );
  return { words, told };
}

const earPage = {
  listen,
  stopAtOnce,
  listenThroughLoss,
  killWorker,
  wake,
  happened,
};
export type EarPage = typeof earPage;
Object.assign(globalThis, { earPage });
