/** The microphone as a {@link SoundSource}: opens it, keeps it open, says what is wrong. */
import { isAbsent, type MicrophoneChoice } from './devices.ts';
// oxlint-disable-next-line import/default -- Vite gives the address of the built worklet as default
import workletUrl from './microphone.worklet.ts?worker&url';
import type { ToWorklet, WorkletOptions } from './microphone.worklet.ts';
import { SAMPLE_RATE } from './port.ts';
import { Resampler } from './resample.ts';
import type { Handed } from './rest-keeper.ts';
import type { SoundHandlers, SoundSource } from './sound-source.ts';
import { microphoneTrouble, otherDevice, trouble, type TroubleKind } from './trouble.ts';
import { FRAME_SAMPLES } from './vad/constants.ts';

/**
 * Echo is cancelled so that our own calls reach the ear faintly. Noise suppression is off: the
 * recogniser and the voice activity were measured on untouched noisy sound, and suppressors are
 * made for listeners, who miss consonants less than recognisers do. Automatic gain is off: it
 * lifts the suction in every pause.
 */
export const CONSTRAINTS = {
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: false,
  channelCount: 1,
} as const satisfies MediaTrackConstraints;

/**
 * How much sound is taken at a time, about: what voice activity looks at. The least a browser offers,
 * 10 ms, wakes the audio thread three times as often, all day. Seconds.
 */
export const LATENCY_S = FRAME_SAMPLES / SAMPLE_RATE;

/** Troubles that opening the microphone settles. */
const OPENING: readonly TroubleKind[] = ['denied', 'no device', 'in use', 'unsupported', 'lost'];

interface OpenMicrophone {
  readonly stream: MediaStream;
  readonly context: AudioContext;
  /** The port of what gathers its samples; null until that is there. */
  port: MessagePort | null;
  /** Takes back every listener. */
  readonly off: AbortController;
}

export class Microphone implements SoundSource {
  readonly #chosen: MicrophoneChoice | null;
  readonly #whole: boolean;
  #handlers: SoundHandlers | null = null;
  #open: OpenMicrophone | null = null;
  #opening = false;
  /** Something changed while the microphone was being opened. */
  #changed = false;
  readonly #troubles = new Set<TroubleKind>();
  #watch = new AbortController();

  /**
   * `chosen`: listened with whenever it is there; null, and while it is not: the system's choice.
   * `whole`: all sound is wanted, that of a room at rest too.
   */
  constructor(chosen: MicrophoneChoice | null = null, whole = false) {
    this.#chosen = chosen;
    this.#whole = whole;
  }

  async start(handlers: SoundHandlers): Promise<void> {
    this.#handlers = handlers;
    this.#watch = new AbortController();
    await this.#watchWorld();
    await this.#tryOpen();
  }

  speaking(isSo: ToWorklet): void {
    this.#open?.port?.postMessage(isSo);
  }

  async stop(): Promise<void> {
    this.#watch.abort();
    this.#handlers = null;
    await this.#close();
  }

  /** A device that comes back and a permission that is given open the microphone again. */
  async #watchWorld(): Promise<void> {
    const { signal } = this.#watch;
    const again = (): void => void this.#lookAgain();
    navigator.mediaDevices?.addEventListener('devicechange', again, { signal });
    const touched = (): void => {
      if (this.#open?.context.state === 'suspended') void this.#open.context.resume();
    };
    for (const type of ['pointerdown', 'keydown'])
      document.addEventListener(type, touched, { signal, capture: true });
    try {
      const permission = await navigator.permissions.query({ name: 'microphone' });
      permission.addEventListener('change', again, { signal });
    } catch {
      // A browser without this query asks anew at the next start; nothing is lost but the watch.
    }
  }

  async #lookAgain(): Promise<void> {
    if (this.#opening) this.#changed = true;
    else if (!this.#open) await this.#tryOpen();
    else if (this.#troubles.has('other device')) await this.#takeChosen();
  }

  async #tryOpen(): Promise<void> {
    await this.#whileOpening(async () => {
      try {
        if (!navigator.mediaDevices) throw new DOMException('no mediaDevices', 'NotSupportedError');
        const isChosen = await this.#openBest();
        for (const kind of OPENING) this.#well(kind);
        if (isChosen || this.#chosen === null) this.#well('other device');
        else this.#report(otherDevice(this.#chosen.label));
      } catch (error) {
        await this.#close();
        this.#report(microphoneTrouble(error));
      }
    });
  }

  /** Listens with the chosen microphone, or while it is not there with the system's choice; whether it is the chosen. */
  async #openBest(): Promise<boolean> {
    const chosen = this.#chosen === null ? null : await openIfThere(this.#chosen);
    await this.#listen(chosen ?? (await openDevice(null)));
    return chosen !== null;
  }

  /** Changes over to the chosen microphone if it is there again. */
  async #takeChosen(): Promise<void> {
    await this.#whileOpening(async () => {
      const devices = await navigator.mediaDevices.enumerateDevices().catch(() => []);
      if (!devices.some(({ deviceId }) => deviceId === this.#chosen?.id)) return;
      const stream = await openDevice(this.#chosen).catch(() => null);
      // Not ready yet, or held by another program: the one that listens goes on.
      if (stream === null) return;
      await this.#close();
      try {
        await this.#listen(stream);
        this.#well('other device');
      } catch (error) {
        await this.#close();
        this.#report(microphoneTrouble(error));
      }
    });
  }

  /** One opening at a time; a device that came or went meanwhile is looked at after it. */
  async #whileOpening(open: () => Promise<void>): Promise<void> {
    if (!this.#handlers) return;
    if (this.#opening) {
      this.#changed = true;
      return;
    }
    this.#opening = true;
    try {
      await open();
      // Stopped while the browser was asking: a microphone nobody listens to is let go.
      if (!this.#handlers) await this.#close();
    } finally {
      this.#opening = false;
    }
    if (!this.#changed) return;
    this.#changed = false;
    await this.#lookAgain();
  }

  async #listen(stream: MediaStream): Promise<void> {
    const off = new AbortController();
    const { context, source } = openContext(stream);
    const open: OpenMicrophone = { stream, context, port: null, off };
    this.#open = open;
    this.#watchTrack(stream, off.signal);
    this.#watchContext(context, off.signal);
    await context.audioWorklet.addModule(workletUrl);
    const resampler = context.sampleRate === SAMPLE_RATE ? null : new Resampler(context.sampleRate);
    // What lies between two pieces would be missing in what is made of their ends.
    const processorOptions: WorkletOptions = { whole: this.#whole || resampler !== null };
    const sender = new AudioWorkletNode(context, 'frame-sender', {
      numberOfOutputs: 0,
      processorOptions,
    });
    open.port = sender.port;
    this.#handlers?.onStart(!processorOptions.whole);
    sender.port.addEventListener('message', ({ data }: MessageEvent<Handed>) => {
      if (off.signal.aborted) return;
      if (data.kind === 'rest') this.#handlers?.onRest(data.level, data.rested);
      else
        this.#handlers?.onSound(resampler ? resampler.push(data.sound) : data.sound, data.rested);
    });
    // Only a port whose `onmessage` is set starts by itself.
    sender.port.start();
    source.connect(sender);
    // A page that was opened without a touch may not start sound; then `suspended` is told.
    if (context.state === 'suspended') {
      void context.resume();
      this.#checkSuspended(context);
    }
  }

  #watchTrack(stream: MediaStream, signal: AbortSignal): void {
    for (const track of stream.getAudioTracks()) {
      track.addEventListener('ended', () => void this.#lose(), { signal });
      track.addEventListener('mute', () => this.#report(trouble('muted', track.label)), { signal });
      track.addEventListener('unmute', () => this.#well('muted'), { signal });
    }
  }

  #watchContext(context: AudioContext, signal: AbortSignal): void {
    const changed = (): void => {
      if (context.state === 'running') this.#well('suspended');
      else this.#checkSuspended(context);
    };
    context.addEventListener('statechange', changed, { signal });
  }

  /** A context is suspended for a moment while it starts: only a lasting state is told. */
  #checkSuspended(context: AudioContext): void {
    setTimeout(() => {
      if (this.#open?.context !== context || context.state === 'running') return;
      this.#report(trouble('suspended', context.state));
    }, 500);
  }

  async #lose(): Promise<void> {
    await this.#close();
    this.#report(trouble('lost'));
    // Another microphone may be there already; then no device change will tell of it.
    await this.#tryOpen();
  }

  async #close(): Promise<void> {
    const open = this.#open;
    this.#open = null;
    if (!open) return;
    open.off.abort();
    for (const track of open.stream.getTracks()) track.stop();
    if (open.context.state !== 'closed') await open.context.close();
    for (const kind of ['muted', 'suspended'] as const) this.#well(kind);
  }

  #report(found: ReturnType<typeof trouble>): void {
    // "No device" says more than "lost" does, so it is told too; the same twice is not.
    if (this.#troubles.has(found.kind)) return;
    this.#troubles.add(found.kind);
    this.#handlers?.onTrouble(found);
  }

  #well(kind: TroubleKind): void {
    if (this.#troubles.delete(kind)) this.#handlers?.onWell(kind);
  }
}

/** Opens `chosen`, or the system's choice. Rejects as `getUserMedia` does. */
function openDevice(chosen: MicrophoneChoice | null): Promise<MediaStream> {
  const audio = chosen === null ? CONSTRAINTS : { ...CONSTRAINTS, deviceId: { exact: chosen.id } };
  return navigator.mediaDevices.getUserMedia({ audio });
}

/** Opens `chosen`; null when it is not there. Rejects as `getUserMedia` does otherwise. */
const openIfThere = (chosen: MicrophoneChoice): Promise<MediaStream | null> =>
  openDevice(chosen).catch((error: unknown) => {
    if (isAbsent(error)) return null;
    throw error;
  });

/** At 16 kHz where the browser resamples for us, else at the device's own rate. */
function openContext(stream: MediaStream): {
  context: AudioContext;
  source: MediaStreamAudioSourceNode;
} {
  const context = new AudioContext({ sampleRate: SAMPLE_RATE, latencyHint: LATENCY_S });
  try {
    return { context, source: context.createMediaStreamSource(stream) };
  } catch {
    // Some browsers join a stream and a context only when both have one rate.
    void context.close();
    const own = new AudioContext({ latencyHint: LATENCY_S });
    return { context: own, source: own.createMediaStreamSource(stream) };
  }
}
