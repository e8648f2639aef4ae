import type { Shelf, UnitFacts } from '../contract/index.ts';
import { behind, secondsFor } from '../form/index.ts';
import type { Trade } from '../trade/index.ts';
import { cite } from './cite.ts';

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

/** What the light asks of a unit. */
export type LitUnit = Pick<UnitFacts, 'material' | 'thicknessMm'> & {
  readonly translucency?: UnitFacts['translucency'] | undefined;
  readonly darkShade?: boolean | undefined;
};

const upTo5 = (seconds: number): number => Math.ceil(seconds / 5) * 5;

/** Loss per mm of this restoration; null when no light passes. */
const lossOf = (unit: LitUnit, trade: Trade): number | null => {
  const { attenuation } = trade.materials[unit.material];
  if (attenuation === null) return null;
  const own = attenuation[unit.translucency ?? 'low'].value;
  return unit.darkShade === true ? own + trade.light.dark.target : own;
};

/** Seconds a surface is lit at its margins, by how strong the light is. */
const surfaces = (mwCm2: number, { light }: Trade): { floor: number; thick: number } => {
  const weak = Math.max(1, light.reference.value / mwCm2);
  const at = (seconds: number): number => Math.min(light.surface.max, upTo5(seconds * weak));
  return { floor: at(light.surface.min), thick: at(light.surface.target) };
};

const planned = (
  reaches: boolean,
  leastS: number,
  lightS: number,
  working: string,
  { light }: Trade,
): LightPlan => ({
  reaches,
  leastS,
  lightS,
  bursts: Math.ceil(lightS / light.burst.value),
  pauseS: light.pause.target,
  working,
});

/**
 * The light for one surface of a unit; null without a light. The restoration is taken as thick all
 * round as at its thickest, so the margins, which are lit directly, get more than they need.
 */
export const lightPlan = (unit: LitUnit, given: Shelf['light'], trade: Trade): LightPlan | null => {
  if (given === null) return null;
  const { light } = trade;
  const { mwCm2 } = given;
  const { floor, thick } = surfaces(mwCm2, trade);
  const perMm = lossOf(unit, trade);
  if (perMm === null) {
    return planned(
      false,
      floor,
      thick,
      `No light passes metal: ${thick} s a surface for the margins, and wait for the set.`,
      trade,
    );
  }
  const path = { thicknessMm: unit.thicknessMm, perMm, reflection: light.reflection.value };
  const aim = secondsFor(light.dose.target, mwCm2, path);
  const least = secondsFor(light.dose.min, mwCm2, path);
  const reaches = aim <= light.longest.value;
  const lightS = reaches ? Math.min(light.longest.value, Math.max(floor, upTo5(aim))) : thick;
  const leastS = reaches ? Math.min(lightS, Math.max(floor, Math.ceil(least))) : floor;
  const from = light.dose.apart?.target ?? light.dose;
  const through = `${mwCm2} mW/cm2 on ${unit.thicknessMm} mm, ${Math.round(perMm * 100) / 100} per mm, ${path.reflection * 100} % lost at the surface: ${behind(mwCm2, path).toFixed(0)} mW/cm2 at the cement; ${light.dose.target} J/cm2 (${cite(from)}) takes ${aim.toFixed(0)} s`;
  return planned(
    reaches,
    leastS,
    lightS,
    reaches
      ? `${through}.`
      : `${through}, above ${light.longest.value} s: light alone can't do it. ${lightS} s for the margins, and wait for the set.`,
    trade,
  );
};
