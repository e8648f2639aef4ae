/** Plays one clip at a time; the queue decides which and when. */
export interface Player {
  /** Gets clips ready, so that playing them needs no waiting. */
  prepare(pieces: readonly string[]): void;
  /** Something will be played within about a second: the loudspeaker is woken. */
  ready(): void;
  /** How long a piece takes, in milliseconds; null when there is no such clip. */
  lengthMs(piece: string): number | null;
  /**
   * Plays a piece and calls `onEnd` once, later, when it has ended or cannot be played; never at
   * once and never not at all. Returns what cuts it, after which `onEnd` is not called.
   */
  play(piece: string, onEnd: () => void): () => void;
  /** From `play` to the ear, in milliseconds; timed calls are started so much earlier. */
  latencyMs(): number;
  /** 0 is silent, 1 is full. */
  setVolume(volume: number): void;
}
