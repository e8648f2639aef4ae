/** Retention in newtons from a stress in MPa over an area in mm2: an upper bound, F = tau A. */
export const retentionN = (stressMPa: number, areaMm2: number): number => stressMPa * areaMm2;

/**
 * Retention relative to a reference convergence, (reference / convergence) ^ exponent; below
 * `clampDeg` less taper adds nothing. With exponent 1 it is Joergensen's hyperbola.
 */
export const relativeRetention = (
  convergenceDeg: number,
  {
    exponent,
    referenceDeg,
    clampDeg,
  }: {
    readonly exponent: number;
    readonly referenceDeg: number;
    readonly clampDeg: number;
  },
): number => (referenceDeg / Math.max(convergenceDeg, clampDeg)) ** exponent;

/**
 * How far cement film beyond the spacer lifts a crown, in the unit of the film: (film - spacer)
 * over the sine of the wall taper, which is half the convergence. Infinite for parallel walls.
 */
export const seatingLift = (film: number, spacer: number, convergenceDeg: number): number => {
  const over = Math.max(0, film - spacer);
  return over === 0 ? 0 : over / Math.sin((convergenceDeg * Math.PI) / 360);
};
