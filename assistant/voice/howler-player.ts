/** The loudspeaker: clips through howler's Web Audio. */
import { Howl, Howler } from 'howler';
import type { Clips } from './clips.ts';
import type { Clock } from './clock.ts';
import type { Player } from './player.ts';
import { Rest } from './rest.ts';

/** How long a clip may take to load before it is passed over. */
const LOAD_MS = 500;
/** What is told to come soon comes within this. */
const SOON_MS = 1_500;
/** Quiet before the first sound of a clip. */
const LEAD_MS = 15;
/** What an output device usually takes, in seconds. */
const USUAL_LATENCY_S = 0.03;
/** A call that comes much before its time would be a wrong one, whatever a device claims. */
const MOST_LATENCY_MS = 80;
/** Decoded clips kept; about 300 kB each. */
const KEPT = 200;

/** A player that a person must be able to unlock. */
export interface HowlerPlayer extends Player {
  /** Lets the page sound; to be called in the click that allows the microphone. */
  readonly unlock: () => Promise<void>;
}

/** Decoded clips, the most lately used last; the rest are given back to the browser. */
class Shelf {
  readonly #clips: Clips;
  readonly #log: (message: string) => void;
  readonly #howls = new Map<string, Howl>();

  constructor(clips: Clips, log: (message: string) => void) {
    this.#clips = clips;
    this.#log = log;
  }

  /** The clip of a piece, loading or loaded; null when there is none. */
  take(piece: string): Howl | null {
    const clip = this.#clips.get(piece);
    if (clip === undefined) {
      this.#log(`no clip for "${piece}"`);
      return null;
    }
    const known = this.#howls.get(piece);
    const howl = known ?? this.#load(piece, clip.url);
    this.#howls.delete(piece);
    this.#howls.set(piece, howl);
    return howl;
  }

  #load(piece: string, url: string): Howl {
    for (const [old, howl] of this.#howls) {
      if (this.#howls.size < KEPT) break;
      if (howl.playing()) continue;
      howl.unload();
      this.#howls.delete(old);
    }
    return new Howl({
      src: [url],
      format: ['wav'],
      preload: true,
      onloaderror: (_id, error) => {
        // Forgotten, so that the next time tries again.
        this.#howls.delete(piece);
        this.#log(`clip of "${piece}" not loaded: ${String(error)}`);
      },
      onplayerror: (_id, error) => {
        this.#log(`clip of "${piece}" not played: ${String(error)}`);
      },
    });
  }
}

/** Plays `clips`; ends are told by `clock`, because howler's own timers sleep in a hidden page. */
export function createHowlerPlayer(
  clips: Clips,
  clock: Clock,
  log: (message: string) => void,
): HowlerPlayer {
  // It would wake only with the sound, later than a timer's call may be.
  Howler.autoSuspend = false;
  const rest = new Rest(clock, (): AudioContext | undefined => Howler.ctx);
  const shelf = new Shelf(clips, log);
  const lengthMs = (piece: string): number | null => clips.get(piece)?.ms ?? null;

  const play = (piece: string, onEnd: () => void): (() => void) => {
    const howl = shelf.take(piece);
    let sound: number | null = null;
    let over = false;
    let forget: () => void;
    const end = (): void => {
      over = true;
      onEnd();
    };
    const start = (): void => {
      if (over || howl === null) return;
      forget();
      sound = howl.play();
      forget = clock.at(clock.now() + (lengthMs(piece) ?? 0), end);
    };
    // Should loading fail or dawdle, the call goes on without this piece.
    forget = clock.at(clock.now() + (howl === null ? 0 : LOAD_MS), end);
    const begin = async (): Promise<void> => {
      await rest.wake(lengthMs(piece) ?? 0);
      if (howl?.state() === 'loaded') start();
      else
        howl?.once('load', start).once('loaderror', () => (over ? undefined : (forget(), end())));
    };
    void begin();
    return () => {
      over = true;
      forget();
      if (sound !== null) howl?.stop(sound);
    };
  };

  return {
    prepare(pieces) {
      for (const piece of pieces) shelf.take(piece);
    },
    ready: () => void rest.wake(SOON_MS),
    lengthMs,
    play,
    latencyMs() {
      const context: AudioContext | undefined = Howler.ctx;
      // 0 until the device has told.
      const device = context?.outputLatency || USUAL_LATENCY_S;
      return Math.min(MOST_LATENCY_MS, ((context?.baseLatency ?? 0) + device) * 1000 + LEAD_MS);
    },
    setVolume(volume) {
      Howler.volume(Math.min(1, Math.max(0, volume)));
    },
    unlock: async () => {
      await Howler.ctx?.resume();
    },
  };
}
