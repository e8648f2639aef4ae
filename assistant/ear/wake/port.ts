/** The wake-word port: something beside the recogniser that hears Seatcall being addressed. */
import type { Pcm } from '../port.ts';
import type { EarTrouble } from '../trouble.ts';

export interface WakeHandlers {
  /** Seatcall was addressed just now. */
  readonly onWake: () => void;
  /** The engine can no longer be used; the call sign goes on being heard without it. */
  readonly onTrouble: (trouble: EarTrouble) => void;
}

export interface WakeWord {
  /** What the practice says to address Seatcall through this engine, for the screen. */
  readonly words: readonly string[];
  /** True when it hears by itself, and wants all sound. */
  readonly listens: boolean;
  /** Takes the next frame of 16 kHz sound, any length; it must not be changed or kept. */
  push(frame: Pcm): void;
  /** Frees the engine; no call may follow. */
  close(): Promise<void>;
}
