/** Radiant exposure in J/cm2 from irradiance in mW/cm2 and seconds. */
export const exposure = (mwCm2: number, seconds: number): number => (mwCm2 * seconds) / 1000;

/** What the light meets on its way to the cement. */
export interface Path {
  readonly thicknessMm: number;
  /** Attenuation coefficient of the ceramic, 1/mm. */
  readonly perMm: number;
  /** Share lost at the surface, 0 to 1. */
  readonly reflection: number;
}

/** Irradiance behind the ceramic, in the unit of `mwCm2`: E(d) = E0 (1 - R) exp(-mu d). */
export const behind = (mwCm2: number, path: Path): number =>
  mwCm2 * (1 - path.reflection) * Math.exp(-path.perMm * path.thicknessMm);

/** Seconds of light for a radiant exposure in J/cm2 behind the ceramic. */
export const secondsFor = (joulesCm2: number, mwCm2: number, path: Path): number =>
  (1000 * joulesCm2) / behind(mwCm2, path);
