import type { z } from 'zod';
import type { Prep, Retention, UnitFacts } from '../contract/index.ts';
import { frustum, heightToBase, limitingConvergence, toothClass } from '../form/index.ts';
import { FORM_RULES, SOURCES } from '../trade/index.ts';

export type Verdict = z.infer<typeof Retention>;
type PrepFacts = Pick<UnitFacts, 'tooth'> & { readonly prep: Prep };

const one = (value: number): string => value.toFixed(1);
const two = (value: number): string => value.toFixed(2);

/** What keeps the form from holding by itself; empty when it holds. */
const shortcomings = ({ tooth, prep }: PrepFacts): string[] => {
  const limit = limitingConvergence(prep.heightMm, prep.widthMm);
  const ratio = heightToBase(prep.heightMm, prep.widthMm);
  const molar = toothClass(tooth) === 'molar';
  const least = molar ? FORM_RULES.heightMolar : FORM_RULES.heightOther;
  const tall = prep.heightMm >= FORM_RULES.heightAlone.value;
  return [
    ...(prep.convergenceDeg > limit
      ? [`${one(prep.convergenceDeg)} degrees is above the limit of ${one(limit)}`]
      : []),
    ...(prep.heightMm < least.value
      ? [
          `${one(prep.heightMm)} mm is below the ${one(least.value)} mm ${molar ? 'of a molar' : 'of this tooth'}`,
        ]
      : []),
    ...(ratio < FORM_RULES.ratio.value && !tall
      ? [`height over base ${two(ratio)} is below ${one(FORM_RULES.ratio.value)}`]
      : []),
  ];
};

/**
 * Whether the prep's form holds a crown by itself. It does when the convergence is within the
 * limit (half the opposing wall resists), the height reaches the tooth's least, and height over
 * base reaches 0.4; from 4 mm up the ratio no longer decides (common practice).
 */
export const retentionVerdict = ({ tooth, prep }: PrepFacts): Verdict => {
  const { heightMm, widthMm, convergenceDeg } = prep;
  const limitDeg = limitingConvergence(heightMm, widthMm);
  const ratio = heightToBase(heightMm, widthMm);
  const lacking = shortcomings({ tooth, prep });
  const holds = lacking.length === 0;
  const shape = frustum(widthMm, heightMm, convergenceDeg);
  const { convergence } = FORM_RULES;
  const wide = convergenceDeg > (convergence.max ?? Infinity) && holds;
  return {
    limitDeg,
    ratio,
    holds,
    sentence: holds
      ? `Form holds by itself (${one(heightMm)} mm high, ${one(convergenceDeg)} degrees against a limit of ${one(limitDeg)}): conventional cement is possible, bonding adds to it.`
      : `Form does not hold by itself (${lacking.join('; ')}): bonding with an adhesive resin is required.`,
    working: [
      `Limit: asin(${one(heightMm)} / ${one(widthMm)}) = ${one(limitDeg)} degrees total convergence; half the opposing wall resists (${SOURCES.Parker88.cite}, from memory). Prep: ${one(convergenceDeg)}.`,
      `Height over base: ${one(heightMm)} / ${one(widthMm)} = ${two(ratio)}, at least ${one(FORM_RULES.ratio.value)} (${SOURCES.Goodacre01.cite}); from ${one(FORM_RULES.heightAlone.value)} mm of height up it does not decide (${SOURCES.practice.cite}).`,
      `Height: ${one(heightMm)} mm, at least ${one(FORM_RULES.heightMolar.value)} on a molar, ${one(FORM_RULES.heightOther.value)} on others (${SOURCES.Goodacre01.cite}).`,
      `Lateral area as a plain frustum: pi x (${two(widthMm / 2)} + ${two(shape.topRadius)}) x ${two(shape.slant)} = ${shape.lateralArea.toFixed(1)} mm2. It hardly changes with taper, so it decides nothing.`,
      ...(wide
        ? [
            `Convergence is above the recommended ${convergence.min} to ${convergence.max} degrees (${SOURCES.Goodacre01.cite}), though within the limit.`,
          ]
        : []),
    ],
  };
};
