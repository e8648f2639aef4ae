import type { CementClass, UnitFacts } from '../contract/index.ts';
import type { CementTable, Material, Trade } from '../trade/index.ts';
import { aKind, KIND_NAME } from './noun.ts';
import type { Verdict } from './retention.ts';

/** What the rules ask of a unit. */
export interface Bonding {
  readonly kind: UnitFacts['kind'];
  readonly material: UnitFacts['material'];
  readonly substrate: UnitFacts['substrate'];
  readonly thicknessMm: number | undefined;
  readonly verdict: Verdict | null;
  /** Whether light sets the cement through the restoration; null when there is no light. */
  readonly lightReaches: boolean | null;
}

interface Given extends Bonding {
  readonly cement: CementTable;
  readonly ceramic: Material;
  readonly trade: Trade;
}

/** A rule says why the cement may not go with the unit; null when it has nothing against it. */
type Rule = (given: Given, id: CementClass) => string | null;

const say = (condition: boolean, why: string): string | null => (condition ? why : null);
const bonded = ({ cement }: Given): boolean => cement.family === 'adhesive';
const full = ({ kind }: Given): boolean =>
  kind === 'crown' || kind === 'bridge' || kind === 'implant-crown';
const single = ({ kind }: Given): boolean => kind === 'crown' || kind === 'implant-crown';
const nameOf = ({ kind }: Given): string => KIND_NAME[kind];

const veneer: Rule = ({ kind }, id) =>
  say(
    kind === 'veneer' && id !== 'adhesive-resin-light' && id !== 'adhesive-resin-dual',
    'a veneer has no form and shows its cement: light-cure or dual-cure adhesive resin only',
  );

const partial: Rule = (given) =>
  say(
    (given.kind === 'inlay' || given.kind === 'onlay') &&
      given.ceramic.family !== 'metal' &&
      !bonded(given),
    `a ceramic or resin ${nameOf(given)} is held by its bond: adhesive resin only`,
  );

/** Trade reference, 4B: no veneers, no inlays. */
const slowBuilt: Rule = ({ kind }, id) =>
  say(
    kind === 'inlay' && id === 'calcium-aluminate',
    'calcium aluminate holds on the walls of a full prep, not in an inlay: a cast one goes in with zinc phosphate, glass ionomer or resin',
  );

const wing: Rule = ({ kind }, id) =>
  say(
    kind === 'resin-bonded-bridge' && id !== 'adhesive-resin-self' && id !== 'adhesive-resin-dual',
    'a wing is held by its bond and lets little light through: self-cure or dual-cure adhesive resin only',
  );

const base: Rule = ({ substrate }, id) =>
  say(
    substrate === 'titanium-base' && id !== 'adhesive-resin-self' && id !== 'adhesive-resin-dual',
    'a titanium base is bonded with self-cure or dual-cure adhesive resin, opaque where metal would show',
  );

const weak: Rule = (given) => {
  const { ceramic } = given;
  const low = ceramic.isoClass !== null && ceramic.isoClass.value <= 2;
  return say(
    (low || ceramic.family === 'resin') && !bonded(given),
    low
      ? `${ceramic.name} is ISO 6872 class ${ceramic.isoClass?.value ?? ''}: bonded with adhesive resin, always`
      : `${ceramic.name} is bonded with adhesive resin, always`,
  );
};

/** Classes 3 and up and metals may go conventional; resin-modified glass ionomer swells. */
const acidBase: Rule = (given, id) => {
  const { ceramic, material } = given;
  if (id !== 'resin-modified-glass-ionomer' || !full(given)) return null;
  const swells =
    'resin-modified glass ionomer takes up water and swells (Leevailoj 1998, from memory)';
  if (material === 'zirconia-5y') return `${swells}: not on ${ceramic.name}`;
  return say(
    material === 'lithium-disilicate' && !single(given),
    `${swells}: on ${ceramic.name} for a crown that holds by form, not for ${aKind(given.kind)}`,
  );
};

const selfAdhesive: Rule = (given) => {
  const { ceramic, material, cement } = given;
  if (cement.family !== 'self-adhesive') return null;
  const strong = ceramic.family === 'oxide' || ceramic.family === 'metal';
  const disilicate = material === 'lithium-disilicate' && single(given);
  return say(
    !strong && !disilicate,
    `self-adhesive resin is for zirconia, alumina, metal, and a lithium disilicate crown whose form holds, not for ${aKind(given.kind)} of ${ceramic.name}`,
  );
};

const lightOnly: Rule = (given, id) => {
  if (id !== 'adhesive-resin-light') return null;
  const { ceramic, kind, thicknessMm, lightReaches, trade } = given;
  const most = trade.limits.lightCureThickness.max;
  if (kind !== 'veneer' && kind !== 'inlay' && kind !== 'onlay') {
    return `light-cure resin is for thin veneers, inlays and onlays, not for ${aKind(given.kind)}`;
  }
  if (ceramic.attenuation === null) return `no light passes ${ceramic.name}`;
  if (thicknessMm !== undefined && thicknessMm > most) {
    return `light-cure resin only up to ${most} mm, and it is ${thicknessMm} mm thick`;
  }
  if (lightReaches === null) return 'there is no light on the shelf';
  return say(!lightReaches, 'light would take too long a surface to set it through this ceramic');
};

const form: Rule = ({ cement, verdict, substrate }) =>
  say(
    cement.needsForm && substrate !== 'titanium-base' && verdict !== null && !verdict.holds,
    `${cement.name} needs a prep whose form holds. ${verdict?.sentence ?? ''}`,
  );

const RULES: readonly Rule[] = [
  veneer,
  partial,
  slowBuilt,
  wing,
  base,
  weak,
  acidBase,
  selfAdhesive,
  lightOnly,
  form,
];

/** Why a cement class may not go with a unit, the gravest first; empty when it may. */
export const cementReasons = (unit: Bonding, id: CementClass, trade: Trade): string[] => {
  const given: Given = {
    ...unit,
    cement: trade.cements[id],
    ceramic: trade.materials[unit.material],
    trade,
  };
  return RULES.flatMap((rule) => rule(given, id) ?? []);
};
