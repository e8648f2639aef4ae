import type { z } from 'zod';
import type { Prep, Retention, UnitFacts } from '../contract/index.ts';
import {
  groovedConvergence,
  heightToBase,
  limitingConvergence,
  toothClass,
} from '../form/index.ts';
import { materialOf } from '../trade/index.ts';
import type { Trade } from '../trade/index.ts';
import { aKind } from './noun.ts';
import { type Retainer, retentionWorking } from './retention-working.ts';

export type Verdict = z.infer<typeof Retention>;
/** What the verdict asks of a unit. */
export type FormUnit = Pick<UnitFacts, 'tooth' | 'kind' | 'material' | 'substrate'> &
  Partial<Pick<UnitFacts, 'prep' | 'bridge'>>;

const one = (value: number): string => value.toFixed(1);
const two = (value: number): string => value.toFixed(2);

/** The limit that counts for this prep, degrees. */
export const limitOf = ({ heightMm, widthMm, groove }: Prep, trade: Trade): number =>
  groove === true
    ? groovedConvergence(heightMm, widthMm, trade.form.grooveShare.value)
    : limitingConvergence(heightMm, widthMm);

/** What keeps the form from holding by itself; empty when it holds. */
const shortcomings = ({ tooth, prep }: Retainer, trade: Trade): string[] => {
  const { form } = trade;
  const limit = limitOf(prep, trade);
  const base = prep.groove === true ? prep.widthMm * form.grooveShare.value : prep.widthMm;
  const ratio = heightToBase(prep.heightMm, base);
  const molar = toothClass(tooth) === 'molar';
  const least = molar ? form.heightMolar : form.heightOther;
  const tall = prep.heightMm >= form.heightAlone.value;
  return [
    ...(prep.convergenceDeg > limit
      ? [`${one(prep.convergenceDeg)} degrees is above the limit of ${one(limit)}`]
      : []),
    ...(prep.heightMm < least.value
      ? [
          `${one(prep.heightMm)} mm is below the ${one(least.value)} mm ${molar ? 'of a molar' : 'of this tooth'}`,
        ]
      : []),
    ...(ratio < form.ratio.value && !tall
      ? [`height over base ${two(ratio)} is below ${one(form.ratio.value)}`]
      : []),
  ];
};

/** Kinds whose form is that of a full preparation. */
const PREPARED: readonly UnitFacts['kind'][] = ['crown', 'bridge', 'implant-crown'];
/** Whether a kind needs the measures of its prep. */
export const needsPrep = (kind: UnitFacts['kind']): boolean => PREPARED.includes(kind);

const unmeasured = (holds: boolean, sentence: string): Verdict => ({
  limitDeg: null,
  ratio: null,
  holds,
  sentence,
  working: [],
});

/** The verdict where no frustum is prepared. */
const withoutPrep = ({ kind, material }: FormUnit): Verdict => {
  const cast = (kind === 'inlay' || kind === 'onlay') && materialOf(material).family === 'metal';
  return cast
    ? unmeasured(
        true,
        `Form is not computed for ${aKind(kind)}: the limits here are those of a prep that a crown goes over, not of walls that a casting goes between. Taken as held, on the dentist's judgement of near-parallel walls and enough depth: conventional cement is possible, bonding adds to it.`,
      )
    : unmeasured(
        false,
        kind === 'resin-bonded-bridge'
          ? 'Form does not hold the wing of a resin-bonded bridge: bonding with an adhesive resin is required.'
          : `Form is not computed for ${aKind(kind)}, and is not counted on: its bond holds it, and bonding with an adhesive resin is required.`,
      );
};

/** All preps that carry the unit. */
const retainersOf = ({ tooth, prep, bridge }: FormUnit): Retainer[] => [
  ...(prep === undefined ? [] : [{ tooth, prep }]),
  ...(bridge?.retainers ?? []).flatMap((other) =>
    other.prep === undefined ? [] : [{ tooth: other.tooth, prep: other.prep }],
  ),
];

/** What a form that holds is good for: a weak material or a base is bonded all the same. */
const afterHolding = ({ material, substrate }: FormUnit, trade: Trade): string => {
  const { name, isoClass, family } = trade.materials[material];
  if (substrate === 'titanium-base') return 'the base is bonded with adhesive resin all the same.';
  const weak = family === 'resin' || (isoClass !== null && isoClass.value <= 2);
  return weak
    ? `${name} is bonded with adhesive resin all the same.`
    : 'conventional cement is possible, bonding adds to it.';
};

/**
 * Whether the form holds the unit by itself. A prep does when its convergence is within the limit
 * (half the opposing wall resists), the height reaches the tooth's least, and height over base
 * reaches 0.4; from 4 mm up the ratio no longer decides (common practice). A bridge is as good as
 * its worst retainer. A titanium base is bonded whatever its form.
 */
export const retentionVerdict = (unit: FormUnit, trade: Trade): Verdict => {
  if (!needsPrep(unit.kind)) return withoutPrep(unit);
  const retainers = retainersOf(unit);
  const [first] = retainers;
  if (first === undefined) {
    return unmeasured(false, 'Form is not measured: bonding with an adhesive resin is required.');
  }
  const judged = retainers.map((each) => ({ ...each, lacking: shortcomings(each, trade) }));
  const worst = judged.find(({ lacking }) => lacking.length > 0) ?? { ...first, lacking: [] };
  const several = retainers.length > 1;
  const holds = worst.lacking.length === 0;
  const { heightMm, widthMm, convergenceDeg, groove } = worst.prep;
  const limitDeg = limitOf(worst.prep, trade);
  const whose = several ? ` of ${worst.tooth}` : '';
  const grooved = groove === true ? ', a groove counted (an optimistic bound)' : '';
  const then = afterHolding(unit, trade);
  const every = several ? ' on every retainer' : '';
  return {
    limitDeg,
    ratio: heightToBase(heightMm, widthMm),
    holds,
    sentence: holds
      ? `Form holds by itself${every} (${one(heightMm)} mm high, ${one(convergenceDeg)} degrees against a limit of ${one(limitDeg)}${grooved}): ${then}`
      : `Form${whose} does not hold by itself (${worst.lacking.join('; ')}${grooved}): bonding with an adhesive resin is required.`,
    working: judged.flatMap((each) =>
      retentionWorking(each, limitOf(each.prep, trade), trade, several),
    ),
  };
};
