const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** Total occlusal convergence in degrees from the two opposing wall tapers. */
export const convergence = (firstDeg: number, secondDeg: number): number => firstDeg + secondDeg;

/** Height over base width, both in mm. */
export const heightToBase = (heightMm: number, widthMm: number): number => heightMm / widthMm;

/**
 * The total convergence, in degrees, at which half the opposing wall still resists tipping:
 * asin(H/B). The pivot is the opposite margin; a wall point at half the height resists while the
 * angle of its radius is at least the wall's taper. 90 for a prep at least as high as wide.
 */
export const limitingConvergence = (heightMm: number, widthMm: number): number =>
  degrees(Math.asin(Math.min(1, heightToBase(heightMm, widthMm))));

/**
 * The total convergence, in degrees, at which any point of the opposing wall still resists:
 * asin(2 H/B) for H/B up to a half; null above, where there is no limit.
 */
export const lastConvergence = (heightMm: number, widthMm: number): number | null => {
  const ratio = heightToBase(heightMm, widthMm);
  return ratio > 0.5 ? null : degrees(Math.asin(2 * ratio));
};

/**
 * The limiting convergence with a proximal groove or box, which brings the pivot to `share` of the
 * base (a half): an optimistic bound, it leaves out how high and long the groove is.
 */
export const groovedConvergence = (heightMm: number, widthMm: number, share: number): number =>
  limitingConvergence(heightMm, widthMm * share);
