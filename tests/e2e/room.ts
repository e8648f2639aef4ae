/**
 * The room between loudspeaker and microphone. In a headless browser the two never meet, so this
 * joins them: whatever the page plays is kept, and comes back into the microphone as softly as
 * asked. It stands below the page, at the browser's own audio interfaces; the page can't tell.
 */
import type { BrowserContext, Page } from 'playwright-core';
import { resample } from '../speech/resample.ts';

/** How the room carries sound. */
export interface RoomOptions {
  /** Level of the page's own voice at the microphone, in decibels; not at all unless given. */
  readonly echoDb?: number;
  /** Somebody stands in the room: {@link utter} reaches the microphone beside its sound file. */
  readonly person?: boolean;
  /** False: nothing listens to what the page plays, which costs the page time of its own. */
  readonly recorded?: boolean;
}

/** What the page has played since it was opened. */
export interface Played {
  /** Mono, -1..1, at {@link PLAYED_RATE}. */
  readonly pcm: Float32Array;
  /** `Date.now()` when the first sample left the loudspeaker. */
  readonly fromMs: number;
}

/** Rate of {@link Played}, in hertz. */
export const PLAYED_RATE = 16_000;

/** One unbroken stretch of sound out of one audio context; `base64` holds 16-bit samples. */
interface Burst {
  readonly fromMs: number;
  readonly rate: number;
  readonly base64: string;
}

/** Speech on its way to the microphone; `base64` holds 16-bit samples. */
interface Utterance16 {
  readonly rate: number;
  readonly base64: string;
}

declare global {
  interface Window {
    /** Set by {@link joinRoom}. */
    seatcallPlayed?: () => Burst[];
    /** Set by {@link joinRoom} where somebody stands in the room. */
    seatcallUtter?: (sound: Utterance16) => Promise<number>;
  }
}

/** Makes every page of `context` opened from now on play into, and listen in, this room. */
export function joinRoom(
  context: BrowserContext,
  { echoDb, person = false, recorded = true }: RoomOptions,
): Promise<unknown> {
  const echo = echoDb === undefined ? 0 : 10 ** (echoDb / 20);
  return context.addInitScript(install, { echo, person, recorded });
}

/** Runs in the page, before the page's own scripts; it can't see this module. */
function install({
  echo,
  person,
  recorded,
}: {
  readonly echo: number;
  readonly person: boolean;
  readonly recorded: boolean;
}): void {
  const BLOCK = 1024;
  const bursts: { fromMs: number; rate: number; blocks: Int16Array[] }[] = [];

  // oxlint-disable-next-line typescript/unbound-method -- it is only ever applied to a node
  const connect = AudioNode.prototype.connect;
  const wire = (from: AudioNode, to: AudioNode): void => {
    Reflect.apply(connect, from, [to]);
  };

  /** Writes down what comes out of `context`, silence left out. */
  const recorderOf = (context: AudioContext): AudioNode => {
    // Deprecated, but the only recorder that the page's content policy has no say in.
    const recorder = context.createScriptProcessor(BLOCK, 1, 1);
    let expected = Number.NaN;
    recorder.addEventListener('audioprocess', ({ inputBuffer, playbackTime }) => {
      const sound = inputBuffer.getChannelData(0);
      if (sound.every((value) => value === 0)) return;
      // Two blocks lie between a sample's going in and its coming out at `playbackTime`.
      const frame = Math.round(playbackTime * context.sampleRate) - 2 * BLOCK;
      // A busy page misses blocks, and a context may sleep: then its time is asked anew.
      if (Math.abs(frame - expected) > BLOCK / 8) {
        const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
        const sinceMs = (frame / context.sampleRate - contextTime) * 1000;
        const fromMs = Date.now() - performance.now() + performanceTime + sinceMs;
        bursts.push({ fromMs, rate: context.sampleRate, blocks: [] });
      }
      expected = frame + BLOCK;
      bursts.at(-1)?.blocks.push(Int16Array.from(sound, (value) => value * 32_767));
    });
    wire(recorder, context.destination);
    return recorder;
  };

  /** Where the page's voice is summed on its way back to the microphone. */
  let air: { readonly context: AudioContext; readonly gain: GainNode } | undefined;
  const airOf = (): NonNullable<typeof air> => {
    if (air !== undefined) return air;
    const context = new AudioContext();
    return (air = { context, gain: new GainNode(context, { gain: echo }) });
  };

  const recorders = new WeakMap<BaseAudioContext, readonly AudioNode[]>();
  const tapsOf = (context: AudioContext): readonly AudioNode[] => {
    const taps: AudioNode[] = recorded ? [recorderOf(context)] : [];
    if (echo > 0) {
      const away = context.createMediaStreamDestination();
      const into = airOf();
      wire(new MediaStreamAudioSourceNode(into.context, { mediaStream: away.stream }), into.gain);
      taps.push(away);
    }
    return taps;
  };
  const tapped = function (this: AudioNode, ...to: readonly unknown[]): unknown {
    const { context } = this;
    if (to[0] instanceof AudioDestinationNode && context instanceof AudioContext) {
      const taps = recorders.get(context) ?? tapsOf(context);
      recorders.set(context, taps);
      for (const tap of taps) wire(this, tap);
    }
    return Reflect.apply(connect, this, to);
  };
  Object.defineProperty(AudioNode.prototype, 'connect', { value: tapped });

  if (echo > 0 || person) {
    const devices = navigator.mediaDevices;
    const open = devices.getUserMedia.bind(devices);
    devices.getUserMedia = async (constraints) => {
      const stream = await open(constraints);
      const back = airOf();
      // Made before anybody touched the page, it sleeps until it is told.
      await back.context.resume();
      const mixed = back.context.createMediaStreamDestination();
      wire(new MediaStreamAudioSourceNode(back.context, { mediaStream: stream }), mixed);
      wire(back.gain, mixed);
      window.seatcallUtter = ({ rate, base64 }) => {
        const bytes = Uint8Array.from(atob(base64), (unit) => unit.charCodeAt(0));
        const samples = new Int16Array(bytes.buffer);
        const buffer = new AudioBuffer({ length: samples.length, sampleRate: rate });
        buffer.copyToChannel(
          Float32Array.from(samples, (value) => value / 32_767),
          0,
        );
        const mouth = new AudioBufferSourceNode(back.context, { buffer });
        wire(mouth, mixed);
        return new Promise((done) => {
          mouth.addEventListener('ended', () => done(Date.now()));
          mouth.start();
        });
      };
      return mixed.stream;
    };
  }

  window.seatcallPlayed = () =>
    bursts.map(({ fromMs, rate, blocks }) => {
      let binary = '';
      for (const block of blocks) binary += String.fromCharCode(...new Uint8Array(block.buffer));
      return { fromMs, rate, base64: btoa(binary) };
    });
}

function decode(base64: string): Float32Array {
  const bytes = Buffer.from(base64, 'base64');
  return Float32Array.from(
    { length: bytes.length / 2 },
    (_, i) => bytes.readInt16LE(2 * i) / 32_767,
  );
}

/**
 * Somebody in the room says `pcm` (mono, -1..1); resolves when it has been said, to the page's
 * `Date.now()` of that moment.
 * @throws Error when the page has not opened its microphone, or nobody stands in the room.
 */
export async function utter(page: Page, pcm: Float32Array, rate: number): Promise<number> {
  const samples = Int16Array.from(pcm, (value) => value * 32_767);
  const sound = { rate, base64: Buffer.from(samples.buffer).toString('base64') };
  return page.evaluate((one) => {
    if (window.seatcallUtter === undefined) throw new Error('no microphone is open to speak into');
    return window.seatcallUtter(one);
  }, sound);
}

/** What `page` has played so far, from its first sound on; empty before that. */
export async function played(page: Page): Promise<Played> {
  const bursts = await page.evaluate(() => window.seatcallPlayed?.() ?? []);
  if (bursts.length === 0) return { pcm: new Float32Array(0), fromMs: 0 };
  const fromMs = Math.min(...bursts.map((burst) => burst.fromMs));
  const pieces = bursts.map(({ base64, rate, fromMs: startMs }) => ({
    sound: resample(decode(base64), rate, PLAYED_RATE),
    at: Math.round(((startMs - fromMs) * PLAYED_RATE) / 1000),
  }));
  const pcm = new Float32Array(Math.max(...pieces.map(({ sound, at }) => at + sound.length)));
  for (const { sound, at } of pieces) {
    for (const [i, value] of sound.entries()) pcm[at + i] = (pcm[at + i] ?? 0) + value;
  }
  return { pcm, fromMs };
}
