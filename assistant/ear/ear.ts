/**
 * The live ear: sound source -> voice activity -> attention -> recogniser. All times it gives
 * and takes are page-monotonic ms, as the clock it is given tells them.
 */
import { ATTENTION, type AttentionOptions } from './attention.ts';
import { FAINT_SEGMENTS, faintInARow, speechLevel } from './faint.ts';
import { levelOf, LevelWatch, type Level } from './level.ts';
import { Listener, type Hearing } from './listener.ts';
import { SAMPLE_RATE, type Pcm, type Recogniser } from './port.ts';
import type { SoundSource } from './sound-source.ts';
import { StreamClock } from './stream-clock.ts';
import { trouble, type EarTrouble, type TroubleKind } from './trouble.ts';
import { FRAME_SAMPLES, SEGMENTER } from './vad/constants.ts';
import { QuietGate } from './vad/quiet-gate.ts';
import type { SpeechSegment, VadEvent } from './vad/segmenter.ts';
import type { SpeechWeights } from './vad/speech-network.ts';
import { OPEN_GATE, VoiceActivity } from './vad/voice-activity.ts';
import type { WakeWord } from './wake/port.ts';

/** A call as the voice tells of it; `until` is Infinity while its end is not known. */
export interface Speaking {
  readonly text: string;
  readonly from: number;
  readonly until: number;
  /** True when it asks something: the answer then needs no call sign. */
  readonly question?: boolean;
}

export interface EarOptions {
  readonly source: SoundSource;
  readonly recogniser: Recogniser;
  readonly weights: SpeechWeights;
  /** Page-monotonic ms. */
  readonly now: () => number;
  /** JSGF text whose rule `<phrase>` is what may be said now. */
  readonly phrases: string;
  readonly attention?: Partial<AttentionOptions>;
  /** Hears the call sign beside the recogniser; left out: the recogniser alone does. */
  readonly wakeWord?: WakeWord;
  readonly onHeard: (hearing: Hearing) => void;
  /** Somebody begins to speak: the voice may lower itself. */
  readonly onSpeech?: (startMs: number) => void;
  readonly onTrouble: (trouble: EarTrouble) => void;
  readonly onWell: (kind: TroubleKind) => void;
  /** About 30 times a second, in a room at rest twice; of sound that ends at page time `atMs`. */
  readonly onLevel: (level: Level, atMs: number) => void;
}

const msOf = (samples: number): number => (samples * 1000) / SAMPLE_RATE;

/** Beyond this a command is no longer what the speaker wants now, ms. */
const LATE_MS = 4_000;

export class Ear {
  readonly #options: EarOptions;
  readonly #listener: Listener;
  #vad: VoiceActivity;
  #clock = new StreamClock();
  #watch = new LevelWatch();
  /** Whether the source keeps back the sound of a room at rest. */
  #keepsBack = false;
  /** Whether the source was told that somebody speaks. */
  #toldSpeaking = false;
  /** Samples of the stream until now, but those of a room at rest that may still come. */
  #samples = 0;
  /** Samples of the stream whose level was told. */
  #levelled = 0;
  #faint = 0;
  readonly #troubles = new Set<TroubleKind>();

  constructor(options: EarOptions) {
    this.#options = options;
    this.#vad = new VoiceActivity(options.weights);
    this.#listener = new Listener({
      recogniser: options.recogniser,
      attention: { ...ATTENTION, ...options.attention },
      phrases: options.phrases,
      now: options.now,
      lateMs: LATE_MS,
    });
  }

  /**
   * Makes the recogniser ready for the phrases of now, and warms it behind the promise.
   * Rejects with the recogniser's error.
   */
  prepare(): Promise<void> {
    return this.#listener.prepare();
  }

  /** Begins to listen; what goes wrong is told as trouble. */
  async start(): Promise<void> {
    await this.#options.source.start({
      onSound: (sound, rested) => this.#take(sound, rested),
      onRest: (level, rested) => {
        const samples = this.#samples + rested;
        this.#clock.arrived(msOf(samples), this.#options.now());
        this.#tellLevel(level, samples);
      },
      onStart: (keepsBack) => {
        this.#keepsBack = keepsBack;
        this.#restart();
      },
      onTrouble: (found) => {
        // Half a command before the sound broke off is no command.
        this.#restart();
        this.#options.onTrouble(found);
      },
      onWell: this.#options.onWell,
    });
  }

  /** Stops listening and lets go of the microphone; the recogniser stays its owner's. */
  async stop(): Promise<void> {
    await this.#options.source.stop();
    await this.#options.wakeWord?.close();
  }

  /** What may be said from the next segment on: JSGF text whose rule is `<phrase>`. */
  setPhrases(jsgf: string): void {
    this.#listener.setPhrases(jsgf);
    this.#listener.expect();
  }

  /**
   * Sets the call sign, any word; null: every phrase counts as addressed.
   * @throws CallSignError when it cannot be used.
   */
  setCallSign(word: string | null): void {
    this.#listener.setCallSign(word);
  }

  /** Tells that a call sounds; tell it again with its true end if that changes. */
  speaking(call: Speaking): void {
    const { text, from, until, question = false } = call;
    this.#listener.sounding({ text, fromMs: from, untilMs: until, question });
  }

  /** Tells that Seatcall was addressed by other means, at page time `atMs`. */
  addressed(atMs: number): void {
    this.#listener.addressed(atMs);
  }

  #restart(): void {
    const gate = this.#keepsBack ? OPEN_GATE : new QuietGate();
    this.#vad = new VoiceActivity(this.#options.weights, SEGMENTER, gate);
    this.#clock = new StreamClock();
    this.#watch = new LevelWatch();
    this.#samples = 0;
    this.#levelled = 0;
    this.#faint = 0;
    this.#note('faint', false);
    this.#tellSpeaking();
  }

  #take(sound: Pcm, rested: number): void {
    this.#vad.skip(rested);
    this.#samples += rested;
    this.#clock.arrived(msOf(this.#samples + sound.length), this.#options.now());
    this.#options.wakeWord?.push(sound);
    for (let at = 0; at < sound.length; at += FRAME_SAMPLES)
      this.#takeFrame(sound.subarray(at, at + FRAME_SAMPLES));
    this.#tellSpeaking();
  }

  #takeFrame(frame: Pcm): void {
    this.#samples += frame.length;
    // What was kept back has its level told already.
    if (this.#samples > this.#levelled) this.#tellLevel(levelOf(frame), this.#samples);
    const atMs = msOf(this.#samples) + this.#clock.originMs;
    const duringCall = this.#listener.soundsDuring({ speechStartMs: atMs, speechEndMs: atMs });
    for (const event of this.#vad.push(frame, duringCall)) void this.#heed(event);
  }

  /** The level of sound that ends after so many `samples` of the stream. */
  #tellLevel(level: Level, samples: number): void {
    this.#levelled = samples;
    this.#options.onLevel(level, msOf(samples) + this.#clock.originMs);
    const { silent, clipped } = this.#watch.push(level);
    this.#note('silent', silent);
    this.#note('clipped', clipped);
  }

  #tellSpeaking(): void {
    if (this.#vad.speaking === this.#toldSpeaking) return;
    this.#toldSpeaking = this.#vad.speaking;
    this.#options.source.speaking(this.#toldSpeaking);
  }

  async #heed(event: VadEvent): Promise<void> {
    const { originMs } = this.#clock;
    if (event.kind === 'speechStart') this.#options.onSpeech?.(event.startMs + originMs);
    if (event.kind === 'pause') this.#listener.hearAhead(shifted(event.segment, originMs));
    if (event.kind !== 'segment') return;
    const segment = shifted(event, originMs);
    // Our own calls come back faintly, as they should.
    if (!this.#listener.soundsDuring(segment)) {
      this.#faint = faintInARow(this.#faint, speechLevel(event));
      this.#note('faint', this.#faint >= FAINT_SEGMENTS);
    }
    try {
      const hearing = await this.#listener.hear(segment);
      this.#note('recogniser', false);
      this.#options.onHeard(hearing);
    } catch (error) {
      this.#note('recogniser', true, error instanceof Error ? error.message : String(error));
    }
  }

  #note(kind: TroubleKind, isSo: boolean, detail = ''): void {
    if (isSo === this.#troubles.has(kind)) return;
    if (isSo) {
      this.#troubles.add(kind);
      this.#options.onTrouble(trouble(kind, detail));
    } else {
      this.#troubles.delete(kind);
      this.#options.onWell(kind);
    }
  }
}

/** The segment on the page's clock instead of the stream's. */
function shifted(segment: SpeechSegment, byMs: number): SpeechSegment {
  return {
    ...segment,
    startMs: segment.startMs + byMs,
    endMs: segment.endMs + byMs,
    speechStartMs: segment.speechStartMs + byMs,
    speechEndMs: segment.speechEndMs + byMs,
  };
}
