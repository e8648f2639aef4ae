/** Where the ear's sound comes from: the microphone, or anything else with the same shape. */
import type { Level } from './level.ts';
import type { Pcm } from './port.ts';
import type { EarTrouble, TroubleKind } from './trouble.ts';

export interface SoundHandlers {
  /**
   * The next 16 kHz mono sound, a frame or several; it is the receiver's to keep. `rested`: so many
   * samples passed before it in which nobody can have spoken, and do not come.
   */
  readonly onSound: (sound: Pcm, rested: number) => void;
  /** The room rests: its level since this was last told, and how many samples passed since the last sound. */
  readonly onRest: (level: Level, rested: number) => void;
  /**
   * Sound begins, or begins again after a stop: what came before belongs to no later sound. `keepsBack`:
   * the source itself tells the frames in which nobody can be speaking, and keeps them back.
   */
  readonly onStart: (keepsBack: boolean) => void;
  readonly onTrouble: (trouble: EarTrouble) => void;
  /** A trouble of this kind is over. */
  readonly onWell: (kind: TroubleKind) => void;
}

export interface SoundSource {
  /** Begins; never rejects: what goes wrong is a trouble, and it tries again by itself. */
  start(handlers: SoundHandlers): Promise<void>;
  /** While somebody speaks nothing is kept back, however softly it is said. */
  speaking(isSo: boolean): void;
  stop(): Promise<void>;
}
