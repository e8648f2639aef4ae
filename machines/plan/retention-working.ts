import {
  frustum,
  groovedConvergence,
  heightToBase,
  lastConvergence,
  limitingConvergence,
  relativeRetention,
  retentionN,
  seatingLift,
} from '../form/index.ts';
import type { Prep } from '../contract/index.ts';
import type { Trade } from '../trade/index.ts';
import { SOURCES } from '../trade/index.ts';
import { cite } from './cite.ts';

/** One prep on one tooth. */
export interface Retainer {
  readonly tooth: string;
  readonly prep: Prep;
}

const one = (value: number): string => value.toFixed(1);
const two = (value: number): string => value.toFixed(2);
const whole = (value: number): string => value.toFixed(0);

const limits = ({ prep }: Retainer, { form }: Trade): string[] => {
  const { heightMm, widthMm, convergenceDeg, groove } = prep;
  const limit = limitingConvergence(heightMm, widthMm);
  const last = lastConvergence(heightMm, widthMm);
  const any =
    last === null
      ? 'some point of it resists at any convergence'
      : `the last point of it gives way at ${one(last)}`;
  return [
    `Limit: asin(${one(heightMm)} / ${one(widthMm)}) = ${one(limit)} degrees total convergence; half the opposing wall resists (${SOURCES.Parker88.cite}, from memory), ${any} (computed). Prep: ${one(convergenceDeg)}.`,
    ...(groove === true
      ? [
          `With a proximal groove or box: asin(${one(heightMm)} / ${one(widthMm * form.grooveShare.value)}) = ${one(groovedConvergence(heightMm, widthMm, form.grooveShare.value))} degrees (${cite(form.grooveShare)}; ${form.grooveShare.note}).`,
        ]
      : []),
    `Height over base: ${one(heightMm)} / ${one(widthMm)} = ${two(heightToBase(heightMm, widthMm))}, at least ${one(form.ratio.value)} (${cite(form.ratio)}); from ${one(form.heightAlone.value)} mm of height up it does not decide (${cite(form.heightAlone)}).`,
    `Height: ${one(heightMm)} mm, at least ${one(form.heightMolar.value)} on a molar, ${one(form.heightOther.value)} on others (${cite(form.heightMolar)}).`,
  ];
};

/** Areas, and what they are worth. */
const retention = ({ prep }: Retainer, { form }: Trade): string[] => {
  const { heightMm, widthMm, convergenceDeg } = prep;
  const shape = frustum(widthMm, heightMm, convergenceDeg);
  const all = shape.lateralArea + shape.topArea;
  const { stress } = form;
  const newtons = [stress.min, stress.target, stress.max].map((tau) => whole(retentionN(tau, all)));
  const relative = (exponent: number): string =>
    two(
      relativeRetention(convergenceDeg, {
        exponent,
        referenceDeg: form.taperReference.value,
        clampDeg: form.taperClamp.value,
      }),
    );
  const lift = seatingLift(form.film.value, 0, convergenceDeg);
  return [
    `Lateral area as a plain frustum: pi x (${two(widthMm / 2)} + ${two(shape.topRadius)}) x ${two(shape.slant)} = ${one(shape.lateralArea)} mm2, top ${one(shape.topArea)} mm2. It hardly changes with taper, so it decides nothing.`,
    `Retention, an upper bound and no promise: ${newtons.join(', ')} N at ${stress.min}, ${stress.target} and ${stress.max} MPa over ${one(all)} mm2 (${cite(stress)}: ${stress.note}).`,
    `Retention against a ${form.taperReference.value}-degree prep: ${relative(form.taperAcidBase.value)} under zinc phosphate, ${relative(form.taperResin.value)} under resin (exponents ${form.taperAcidBase.value} and ${form.taperResin.value}, fitted to ${SOURCES.Yun13.cite}; nothing gained below ${form.taperClamp.value} degrees).`,
    ...(Number.isFinite(lift)
      ? [
          `Seating: without a spacer ${form.film.value} micrometres of film would lift it ${whole(lift)} micrometres at this taper; spacer ${form.spacer.min} to ${form.spacer.max}, ending short of the margin (${cite(form.spacer)}).`,
        ]
      : []),
  ];
};

const recommended = ({ prep }: Retainer, limit: number, { form }: Trade): string[] => {
  const { convergence } = form;
  const wide = prep.convergenceDeg > convergence.max && prep.convergenceDeg <= limit;
  return wide
    ? [
        `Convergence is above the recommended ${convergence.min} to ${convergence.max} degrees (${cite(convergence)}), though within the limit.`,
      ]
    : [];
};

/** How the verdict on one prep was come to, line by line; `named` puts the tooth before each. */
export const retentionWorking = (
  retainer: Retainer,
  limit: number,
  trade: Trade,
  named: boolean,
): string[] => {
  const before = named ? `${retainer.tooth}. ` : '';
  return [
    ...limits(retainer, trade),
    ...retention(retainer, trade),
    ...recommended(retainer, limit, trade),
  ].map((line) => `${before}${line}`);
};
