const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A prep as a plain frustum; lengths in mm, areas in mm2. */
export interface Frustum {
  readonly topRadius: number;
  readonly slant: number;
  readonly lateralArea: number;
  readonly topArea: number;
}

/**
 * The frustum of a prep with this base width and height (mm) and total occlusal convergence
 * (degrees): r = R - H tan(phi), s = H / cos(phi), A = pi (R + r) s, phi half the convergence.
 * Walls that would meet below the top end in a point.
 */
export const frustum = (widthMm: number, heightMm: number, convergenceDeg: number): Frustum => {
  const base = widthMm / 2;
  const phi = radians(convergenceDeg / 2);
  const height = phi > 0 ? Math.min(heightMm, base / Math.tan(phi)) : heightMm;
  const topRadius = Math.max(0, base - height * Math.tan(phi));
  const slant = height / Math.cos(phi);
  return {
    topRadius,
    slant,
    lateralArea: Math.PI * (base + topRadius) * slant,
    topArea: Math.PI * topRadius ** 2,
  };
};
