/** Where the ear's sound comes from: the microphone, or anything else with the same shape. */
import type { Pcm } from './port.ts';
import type { EarTrouble, TroubleKind } from './trouble.ts';

export interface SoundHandlers {
  /** A frame of 16 kHz mono sound, or several in a room at rest; it is the receiver's to keep. */
  readonly onFrame: (frame: Pcm) => void;
  /** Sound begins, or begins again after a stop: what came before belongs to no later sound. */
  readonly onStart: () => void;
  readonly onTrouble: (trouble: EarTrouble) => void;
  /** A trouble of this kind is over. */
  readonly onWell: (kind: TroubleKind) => void;
}

export interface SoundSource {
  /** Begins; never rejects: what goes wrong is a trouble, and it tries again by itself. */
  start(handlers: SoundHandlers): Promise<void>;
  stop(): Promise<void>;
}
