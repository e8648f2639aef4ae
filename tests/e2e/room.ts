/**
 * The room between loudspeaker and microphone. In a headless browser the two never meet, so this
 * joins them: whatever the page plays is kept, and comes back into the microphone as softly as
 * asked. It stands below the page, at the browser's own audio interfaces; the page can't tell.
 */
import type { BrowserContext, Page } from 'playwright-core';

/** How the room carries sound. */
export interface RoomOptions {
  /** Level of the page's own voice at the microphone, in decibels; not at all unless given. */
  readonly echoDb?: number;
}

/** What the page has played since it was opened. */
export interface Played {
  /** Mono, -1..1, at {@link PLAYED_RATE}. */
  readonly pcm: Float32Array;
  /** `Date.now()` of the first sample, to within some 20 ms. */
  readonly fromMs: number;
}

/** Rate of {@link Played}, in hertz. */
export const PLAYED_RATE = 16_000;

declare global {
  interface Window {
    /** Set by {@link joinRoom}: 16-bit samples as text, and when they began. */
    seatcallPlayed?: () => { readonly base64: string; readonly fromMs: number };
  }
}

/** Makes every page of `context` opened from now on play into, and listen in, this room. */
export function joinRoom(context: BrowserContext, { echoDb }: RoomOptions): Promise<unknown> {
  const echo = echoDb === undefined ? 0 : 10 ** (echoDb / 20);
  return context.addInitScript(install, { echo, rate: PLAYED_RATE });
}

/** Runs in the page, before the page's own scripts; it can't see this module. */
function install({ echo, rate }: { readonly echo: number; readonly rate: number }): void {
  const blocks: Int16Array[] = [];
  let fromMs = 0;
  let room: { readonly air: AudioContext; readonly loudspeaker: GainNode } | undefined;

  // oxlint-disable-next-line typescript/unbound-method -- it is only ever applied to a node
  const connect = AudioNode.prototype.connect;
  const wire = (from: AudioNode, to: AudioNode): void => {
    Reflect.apply(connect, from, [to]);
  };

  /** The room's own audio graph: what is played is summed in `loudspeaker` and written down. */
  const enter = (): NonNullable<typeof room> => {
    if (room !== undefined) return room;
    const air = new AudioContext({ sampleRate: rate });
    const loudspeaker = new GainNode(air);
    // Deprecated, but the only recorder that the page's content policy has no say in.
    const recorder = air.createScriptProcessor(1024, 1, 1);
    recorder.addEventListener('audioprocess', ({ inputBuffer, playbackTime }) => {
      if (blocks.length === 0) {
        // Two blocks lie between a sample's going in and its coming out at `playbackTime`.
        fromMs = Date.now() + (playbackTime - air.currentTime - 2048 / rate) * 1000;
      }
      blocks.push(Int16Array.from(inputBuffer.getChannelData(0), (value) => value * 32_767));
    });
    wire(loudspeaker, recorder);
    wire(recorder, air.destination);
    room = { air, loudspeaker };
    return room;
  };

  const taps = new WeakMap<BaseAudioContext, MediaStreamAudioDestinationNode>();
  const tapped = function (this: AudioNode, ...to: readonly unknown[]): unknown {
    const own = this.context;
    const plays = to[0] instanceof AudioDestinationNode && own instanceof AudioContext;
    if (plays && own !== room?.air) {
      let tap = taps.get(own);
      if (tap === undefined) {
        tap = own.createMediaStreamDestination();
        taps.set(own, tap);
        const { air, loudspeaker } = enter();
        wire(new MediaStreamAudioSourceNode(air, { mediaStream: tap.stream }), loudspeaker);
      }
      wire(this, tap);
    }
    return Reflect.apply(connect, this, to);
  };
  Object.defineProperty(AudioNode.prototype, 'connect', { value: tapped });

  if (echo > 0) {
    const devices = navigator.mediaDevices;
    const open = devices.getUserMedia.bind(devices);
    devices.getUserMedia = async (constraints) => {
      const stream = await open(constraints);
      const { air, loudspeaker } = enter();
      const mixed = air.createMediaStreamDestination();
      const back = new GainNode(air, { gain: echo });
      wire(new MediaStreamAudioSourceNode(air, { mediaStream: stream }), mixed);
      wire(loudspeaker, back);
      wire(back, mixed);
      return mixed.stream;
    };
  }

  window.seatcallPlayed = () => {
    const samples = new Int16Array(blocks.reduce((sum, { length }) => sum + length, 0));
    let at = 0;
    for (const block of blocks) {
      samples.set(block, at);
      at += block.length;
    }
    const bytes = new Uint8Array(samples.buffer);
    let binary = '';
    for (let i = 0; i < bytes.length; i += 32_768) {
      binary += String.fromCharCode(...bytes.subarray(i, i + 32_768));
    }
    return { base64: btoa(binary), fromMs };
  };
}

/** What `page` has played so far; nothing before it opened an audio context. */
export async function played(page: Page): Promise<Played> {
  const { base64, fromMs } = await page.evaluate(
    () => window.seatcallPlayed?.() ?? { base64: '', fromMs: 0 },
  );
  const bytes = Buffer.from(base64, 'base64');
  const pcm = Float32Array.from(
    { length: bytes.length / 2 },
    (_, i) => bytes.readInt16LE(2 * i) / 32_767,
  );
  return { pcm, fromMs };
}
