import type { z } from 'zod';
import type { Dwell as DwellSchema, Shelf, StepId } from '../contract/index.ts';
import { DWELLS } from '../trade/index.ts';
import type { Span, TimedStepId } from '../trade/index.ts';
import { cite } from './cite.ts';
import type { UnitContext } from './context.ts';
import { ifuOf, withIfu } from './ifu.ts';

type Dwell = z.infer<typeof DwellSchema>;

const isTimed = (step: StepId): step is TimedStepId => Object.hasOwn(DWELLS, step);

/** The origin of a window in words, ends of another origin named. */
const originOf = (span: Span): string => {
  const { min, target, max } = span.apart ?? {};
  return [
    cite(span),
    ...(min === undefined ? [] : [`least: ${cite(min)}`]),
    ...(target === undefined ? [] : [`aim: ${cite(target)}`]),
    ...(max === undefined ? [] : [`most: ${cite(max)}`]),
  ].join('; ');
};

const fromSpan = (span: Span, holdable: boolean): Dwell => ({
  minS: span.min ?? 0,
  targetS: span.target,
  maxS: span.max,
  holdable,
  from: 'begin',
  mark: span.mark,
  source: originOf(span),
});

const tack = ({ trade: { light } }: UnitContext): Dwell => ({
  minS: light.tackQuarter.min * light.quarters.value,
  targetS: light.tackQuarter.target * light.quarters.value,
  maxS: light.tackQuarter.max * light.quarters.value,
  holdable: true,
  from: 'begin',
  mark: light.tackQuarter.mark,
  source: `${light.tackQuarter.min} to ${light.tackQuarter.max} s a quarter, four quarters (${cite(light.tackQuarter)})`,
});

const cure = ({ light, trade }: UnitContext): Dwell | null => {
  const burst = trade.light.burst.value;
  if (light === null) return null;
  const pauses = (lit: number): number => (Math.ceil(lit / burst) - 1) * light.pauseS;
  const targetS = light.lightS + pauses(light.lightS);
  return {
    minS: light.leastS + pauses(light.leastS),
    targetS,
    maxS: targetS + burst,
    holdable: true,
    from: 'begin',
    mark: 'computed',
    source: `${light.working} ${light.lightS} s of light in bursts of at most ${burst} s, ${light.pauseS} s pauses counted in.`,
  };
};

const gelWait = ({ clock }: UnitContext): Dwell => ({
  ...clock.gel,
  holdable: false,
  from: 'mix',
  mark: 'computed',
  source: clock.gelFrom,
});

const set = ({ clock, cement }: UnitContext): Dwell => ({
  minS: clock.settingS,
  targetS: clock.settingS,
  maxS: null,
  holdable: false,
  from: 'mix',
  mark: cement.settingS === undefined ? clock.table.setting.mark : 'shelf',
  source: clock.settingFrom,
});

/** Windows that depend on the substrate, the light or the cement. */
const WORKED_OUT: Partial<Readonly<Record<StepId, (context: UnitContext) => Dwell | null>>> = {
  'tooth-etch': ({ substrate }) =>
    substrate.etch === null ? null : fromSpan(substrate.etch, false),
  'tooth-etch-rinse': ({ substrate }) => fromSpan(substrate.rinse, true),
  tack,
  'gel-wait': gelWait,
  'cure-occlusal': cure,
  'cure-buccal': cure,
  'cure-lingual': cure,
  set,
};

const builtIn = (step: StepId, context: UnitContext): Dwell | null => {
  const { conditioner, conditioning } = context.material;
  if (step === conditioner) return fromSpan(conditioning, conditioner === 'abrade');
  if (isTimed(step)) return fromSpan(context.trade.dwells[step].span, DWELLS[step].holdable);
  return WORKED_OUT[step]?.(context) ?? null;
};

/**
 * The window of a step for this unit, seconds; null when the step has none. Instructions for use
 * on the shelf outrank the built-in window, except that acid never stays longer on dentin.
 */
export const dwellOf = (step: StepId, context: UnitContext): Dwell | null => {
  const dwell = builtIn(step, context);
  const shelf: Shelf = context.caseFile.shelf;
  const found = dwell === null ? null : ifuOf(step, shelf);
  if (dwell === null || found === null) return dwell;
  const outranked = { ...dwell, ...withIfu(dwell, found.times), mark: 'shelf' as const };
  const named = `instructions for use of ${found.label}`;
  if (step !== 'tooth-etch' || context.unit.substrate !== 'dentin') {
    return { ...outranked, source: named };
  }
  const most = dwell.maxS ?? outranked.targetS;
  return {
    ...outranked,
    minS: Math.min(outranked.minS, most),
    targetS: Math.min(outranked.targetS, most),
    maxS: Math.min(outranked.maxS ?? most, most),
    source: `${named}, at most ${most} s on dentin (${cite(context.substrate.etch ?? { mark: 'common-practice', source: 'practice' })})`,
  };
};
