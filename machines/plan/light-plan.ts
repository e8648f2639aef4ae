import type { Shelf, UnitFacts } from '../contract/index.ts';
import { behind, secondsFor } from '../form/index.ts';
import { LIGHT, SOURCES, materialOf } from '../trade/index.ts';

/** How long each surface is lit, and whether light alone sets the cement. */
export interface LightPlan {
  /** False when light alone would take too long a surface: the cement must set by itself too. */
  readonly reaches: boolean;
  /** Seconds of light a surface: least and aim. */
  readonly leastS: number;
  readonly lightS: number;
  readonly bursts: number;
  /** Pause between bursts, seconds. */
  readonly pauseS: number;
  readonly working: string;
}

const upTo5 = (seconds: number): number => Math.ceil(seconds / 5) * 5;

/**
 * The light for one surface of a unit; null without a light. The ceramic is taken as thick all
 * round as on the biting surface, so the margins, which are lit directly, get more than they need.
 */
export const lightPlan = (unit: UnitFacts, light: Shelf['light']): LightPlan | null => {
  if (light === null) return null;
  const { mwCm2 } = light;
  const path = {
    thicknessMm: unit.thicknessMm,
    perMm: materialOf(unit.material).attenuation?.[unit.translucency].value ?? Infinity,
    reflection: LIGHT.reflection.value,
  };
  const aim = secondsFor(LIGHT.dose.target, mwCm2, path);
  const least = secondsFor(LIGHT.dose.min, mwCm2, path);
  const reaches = aim <= LIGHT.longest.value;
  const weak = Math.max(1, LIGHT.reference.value / mwCm2);
  const floor = Math.min(LIGHT.surface.max, upTo5(LIGHT.surface.min * weak));
  const thick = Math.min(LIGHT.surface.max, upTo5(LIGHT.surface.target * weak));
  const lightS = reaches ? Math.min(LIGHT.longest.value, Math.max(floor, upTo5(aim))) : thick;
  const leastS = reaches ? Math.min(lightS, Math.max(floor, Math.ceil(least))) : floor;
  const through = `${mwCm2} mW/cm2 on ${unit.thicknessMm} mm, ${path.perMm} per mm, ${path.reflection * 100} % lost at the surface: ${behind(mwCm2, path).toFixed(0)} mW/cm2 at the cement; ${LIGHT.dose.target} J/cm2 (${SOURCES[LIGHT.dose.apart.target.source].cite}) takes ${aim.toFixed(0)} s`;
  return {
    reaches,
    leastS,
    lightS,
    bursts: Math.ceil(lightS / LIGHT.burst.value),
    pauseS: LIGHT.pause.target,
    working: reaches
      ? `${through}.`
      : `${through}, above ${LIGHT.longest.value} s: light alone can't do it. ${lightS} s for the margins, and wait for the set.`,
  };
};
