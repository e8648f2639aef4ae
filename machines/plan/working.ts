import { CLOCK, SOURCES } from '../trade/index.ts';
import { cite } from './cite.ts';
import type { UnitContext } from './context.ts';
import { classFor, leastConnector, teethOf } from './span.ts';
import { leastThickness, thicknessOf } from './thickness.ts';

type Line = (context: UnitContext) => string | null;

const strength: Line = ({ material }) => {
  const { isoClass, flexural, toughness } = material;
  if (flexural === null) return null;
  const what = material.family === 'metal' ? '0.2 % proof stress' : 'Flexural strength';
  const tough =
    toughness === null ? '' : `, fracture toughness ${toughness.min} to ${toughness.max} MPa.m^0.5`;
  const upTo = flexural.max === null ? 'or more' : `to ${flexural.max}`;
  const planned =
    isoClass === null ? '' : ` Planned as ISO 6872 class ${isoClass.value} (${cite(isoClass)}).`;
  return `${what} ${flexural.min} ${upTo} MPa${tough} (${cite(flexural)}).${planned}`;
};

const thickness: Line = ({ unit, material, clock }) => {
  const span = thicknessOf(unit, material);
  const least = leastThickness(unit, material, clock.table);
  if (span === null || least === null) {
    return `Thickness ${unit.thicknessMm} mm: the tables know no minimum for this use; its instructions for use decide.`;
  }
  const axial =
    unit.kind === 'crown' || unit.kind === 'bridge' || unit.kind === 'implant-crown'
      ? material.thickness.axial
      : null;
  const walls =
    axial === null
      ? ''
      : ` Walls and margin ${axial.min} mm, aim ${axial.target} (${cite(axial)}).`;
  return `Thickness ${unit.thicknessMm} mm against ${least} mm at least under ${clock.table.name}, aim ${span.target} (${cite(span)}; ${span.note}).${walls}`;
};

const connector: Line = ({ unit, material }) => {
  const { bridge, tooth } = unit;
  if (bridge === undefined) return null;
  const spanning = { tooth, bridge };
  const { needs, why } = classFor(spanning);
  const least = leastConnector(spanning, material);
  const own =
    least === null
      ? `the tables know no minimum for ${material.name}; the lab's design decides`
      : `${least.value} mm2 at least (${cite(least)}; ${least.note})`;
  const iso =
    material.isoClass === null
      ? ''
      : ` ${why.charAt(0).toUpperCase()}${why.slice(1)}: ISO 6872 class ${needs} (${SOURCES.ISO6872.cite}, from memory).`;
  return `Bridge ${teethOf(spanning).join(' ')}, connector ${bridge.connectorMm2} mm2: ${own}.${iso}`;
};

const light: Line = ({ light: plan, clock }) => {
  if (!clock.table.lightCured) return 'Light: this cement is not set by light.';
  return plan === null ? 'Light: none on the shelf.' : `Light: ${plan.working}`;
};

const clocks: Line = ({ clock, waitForSet }) =>
  `Two clocks: outside the mouth it works for ${clock.workingS} s (${clock.workingFrom}); ${
    clock.table.setsAlone
      ? `in the mouth it runs warmer and sets ${clock.settingS} s after the mix (${clock.settingFrom})${waitForSet ? '' : ', sooner under the light'}`
      : 'in the mouth it sets under the light and not without'
  }.`;

/** What the standards ask of a class; times outside are worth a second look at the instructions. */
const standard: Line = ({ clock, cement }) => {
  const resin = clock.table.family === 'adhesive' && clock.table.setsAlone;
  const at23 = cement.workingS ?? clock.table.working.min ?? 0;
  const least = resin
    ? CLOCK.leastWorkingResin
    : cement.class === 'resin-modified-glass-ionomer'
      ? CLOCK.leastWorkingModified
      : null;
  if (least === null || at23 >= least.value) return null;
  return `Working time ${at23} s at 23 degrees C is below the ${least.value} s of the standard (${cite(least)}): check the instructions for use.`;
};

const LINES: readonly Line[] = [strength, thickness, connector, light, clocks, standard];

/** Thickness, connector, light and clocks of a unit worked out, a sentence each. */
export const workingOf = (context: UnitContext): string[] =>
  LINES.flatMap((line) => line(context) ?? []);
