import type { Clock } from './clock.ts';
import type { Player } from './player.ts';

/** A player that takes each clip's time without a sound: for the terminal, and for no loudspeaker. */
export function createSilentPlayer(
  clock: Clock,
  lengths: ReadonlyMap<string, { readonly ms: number }>,
): Player {
  const lengthMs = (piece: string): number | null => lengths.get(piece)?.ms ?? null;
  return {
    prepare: () => undefined,
    ready: () => undefined,
    lengthMs,
    play: (piece, onEnd) => clock.at(clock.now() + (lengthMs(piece) ?? 0), onEnd),
    latencyMs: () => 0,
    setVolume: () => undefined,
  };
}
