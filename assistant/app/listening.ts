/** The ear of the page: one recogniser kept warm, the microphone opened when a case begins. */
import { ATTENTION } from '../ear/attention.ts';
import { Ear } from '../ear/ear.ts';
import type { Hearing } from '../ear/listener.ts';
import type { Level } from '../ear/level.ts';
import type { MicrophoneChoice } from '../ear/devices.ts';
import { Microphone } from '../ear/microphone.ts';
import type { NeuralOptions } from '../ear/neural/options.ts';
import { type EarTrouble, trouble, type TroubleKind } from '../ear/trouble.ts';
import { fetchSpeechWeights } from '../ear/vad/weights-browser.ts';
import { openWakeWord, type PorcupineSettings } from '../ear/wake/index.ts';
import { browserChannel } from '../ear/worker/browser-channel.ts';
import { WorkerRecogniser } from '../ear/worker/worker-recogniser.ts';
import { NEURAL_WEIGHTS, ONNX_RUNTIME, VOICE_ACTIVITY_WEIGHTS } from '../assets.ts';
import type { Clock } from '../voice/clock.ts';
import type { Spoken } from '../voice/voice.ts';
import { AT_REST, type HearingState } from './hearing-state.ts';

export interface ListeningSettings {
  readonly callSign: string;
  readonly followUpMs: number;
  readonly wakeWord: PorcupineSettings | null;
  /** Null for the system's choice. */
  readonly microphone: MicrophoneChoice | null;
}

/** Hearing that no case follows: what is heard goes to whoever tries the ear out. */
export interface Trial {
  /** JSGF of what may be said. */
  readonly phrases: string;
  readonly onHeard: (hearing: Hearing) => void;
  readonly onSpeech: () => void;
  /** The level of sound that ends at page time `atMs`. */
  readonly onLevel: (level: Level, atMs: number) => void;
}

export interface ListeningHandlers {
  readonly onHeard: (hearing: Hearing) => void;
  /** Somebody begins to speak. */
  readonly onSpeech: () => void;
  readonly onTrouble: (trouble: EarTrouble) => void;
  /** Its state has changed; the screen may want to show it. */
  readonly onChange: () => void;
  /** Input level, 0 (silence) to 1 (full scale). */
  readonly onLevel: (level: number) => void;
}

const here = (url: string): string => new URL(url, location.href).href;

/** What the recogniser's worker loads; all of it from this machine. */
const ENGINE: NeuralOptions = {
  encoder: here(NEURAL_WEIGHTS.encoder),
  givenEncoder: here(NEURAL_WEIGHTS.givenEncoder),
  decoder: here(NEURAL_WEIGHTS.decoder),
  wasm: { wasm: here(ONNX_RUNTIME.wasm), mjs: here(ONNX_RUNTIME.mjs) },
};

/** Quieter than this shows as nothing, dB below full scale. */
const QUIET_DBFS = -60;

const shownLevel = ({ rmsDbfs }: Level): number =>
  Math.min(1, Math.max(0, (rmsDbfs - QUIET_DBFS) / -QUIET_DBFS));

export class Listening {
  readonly #clock: Clock;
  #handlers: ListeningHandlers | null = null;
  readonly #recogniser: WorkerRecogniser<NeuralOptions>;
  readonly #weights = fetchSpeechWeights(VOICE_ACTIVITY_WEIGHTS);
  #ear: Ear | null = null;
  #phrases = '';
  /** The call told of last: it may sound already when the ear opens. */
  #spoken: Spoken | null = null;
  #followUpMs: number = ATTENTION.followUpMs;
  state: HearingState = AT_REST;

  /** Begins to load what hearing needs; that takes longest of all in a start. */
  constructor(clock: Clock) {
    this.#clock = clock;
    this.#weights.catch(() => null);
    this.#recogniser = new WorkerRecogniser<NeuralOptions>({
      openChannel: browserChannel(
        () =>
          new Worker(new URL('../ear/worker/neural.worker.ts', import.meta.url), {
            type: 'module',
            name: 'recogniser',
          }),
      ),
      engine: ENGINE,
      clock,
      onDeath: (why) => this.#trouble(trouble('recogniser', why)),
      onReady: () => this.#well('recogniser'),
    });
  }

  /** Names who is told of things from now on; troubles until now are told at once. */
  attend(handlers: ListeningHandlers): void {
    this.#handlers = handlers;
    for (const found of this.state.troubles) handlers.onTrouble(found);
    handlers.onChange();
  }

  /** Asks for the microphone and listens; what goes wrong is told as trouble. */
  async start(settings: ListeningSettings, trial?: Trial): Promise<void> {
    await this.stop();
    this.#set({ phase: 'starting' });
    this.#followUpMs = settings.followUpMs;
    const { callSign, followUpMs } = settings;
    try {
      const wakeWord = await openWakeWord(callSign, settings.wakeWord, {
        onWake: () => {
          const now = this.#clock.now();
          this.#ear?.addressed(now);
          this.#opened(now);
        },
        onTrouble: (found) => this.#trouble(found),
      });
      this.#ear = new Ear({
        source: new Microphone(settings.microphone, wakeWord.listens),
        recogniser: this.#recogniser,
        weights: await this.#weights,
        now: () => this.#clock.now(),
        phrases: trial?.phrases ?? this.#phrases,
        attention: { callSign, followUpMs },
        wakeWord,
        onHeard: (hearing) => this.#heard(hearing, trial?.onHeard),
        onSpeech: (startMs) => {
          this.#set({ speechSinceMs: startMs });
          this.#handlers?.onSpeech();
          trial?.onSpeech();
        },
        onTrouble: (found) => this.#trouble(found),
        onWell: (kind) => this.#well(kind),
        onLevel: (level, atMs) => {
          trial?.onLevel(level, atMs);
          this.#handlers?.onLevel(shownLevel(level));
        },
      });
      if (this.#spoken !== null) this.#tell(this.#spoken);
      await this.#ear.start();
      await this.#ear.prepare();
      this.#set({ phase: 'on' });
    } catch (error) {
      this.#trouble(trouble('recogniser', error instanceof Error ? error.message : String(error)));
    }
  }

  async stop(): Promise<void> {
    const ear = this.#ear;
    this.#ear = null;
    this.#set({ ...AT_REST });
    await ear?.stop();
  }

  get on(): boolean {
    return this.#ear !== null;
  }

  /** JSGF of what may be said from now on. */
  setPhrases(jsgf: string): void {
    this.#phrases = jsgf;
    this.#ear?.setPhrases(jsgf);
  }

  /** A call begins or ends: the ear must not take it for a command. */
  speaking(call: Spoken): void {
    const { untilMs, question } = call;
    this.#spoken = call;
    this.#tell(call);
    this.#set({ speakingUntilMs: untilMs });
    if (question) this.#opened(untilMs);
  }

  #tell({ text, fromMs, untilMs, question }: Spoken): void {
    this.#ear?.speaking({ text, from: fromMs, until: untilMs, question });
  }

  #heard(hearing: Hearing, tell = this.#handlers?.onHeard): void {
    this.#set({ speechSinceMs: null });
    // Out of turn it was addressed all the same, and what comes next needs no call sign.
    if (hearing.kind !== 'ignored' || hearing.why === 'out of turn') this.#opened(hearing.endMs);
    tell?.(hearing);
  }

  #opened(atMs: number): void {
    const openUntilMs = Math.max(this.state.openUntilMs, atMs + this.#followUpMs);
    this.#set({ openUntilMs });
  }

  #trouble(found: EarTrouble): void {
    const others = this.state.troubles.filter(({ kind }) => kind !== found.kind);
    this.#set({ troubles: [...others, found] });
    this.#handlers?.onTrouble(found);
  }

  #well(kind: TroubleKind): void {
    this.#set({ troubles: this.state.troubles.filter((one) => one.kind !== kind) });
  }

  #set(change: Partial<HearingState>): void {
    this.state = { ...this.state, ...change };
    this.#handlers?.onChange();
  }
}
