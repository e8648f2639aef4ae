import { chiSquareAbove } from './gamma.ts';

/** Events over exposure, with its interval; in events per unit of exposure. */
export interface Rate {
  readonly events: number;
  readonly exposure: number;
  /** Null without exposure. */
  readonly rate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * The rate of a constant hazard with its exact Poisson interval at `level`. Without events the
 * upper end is still two-sided, so it stands above "three over the exposure".
 * Source: Garwood F. Biometrika 1936;28:437-442 (from memory).
 */
export function rateOf(events: number, exposure: number, level = 0.95): Rate {
  if (!(exposure > 0)) return { events, exposure, rate: null, lower: null, upper: null };
  const tail = (1 - level) / 2;
  const lower = events === 0 ? 0 : chiSquareAbove(1 - tail, 2 * events) / 2 / exposure;
  const upper = chiSquareAbove(tail, 2 * (events + 1)) / 2 / exposure;
  return { events, exposure, rate: events / exposure, lower, upper };
}
