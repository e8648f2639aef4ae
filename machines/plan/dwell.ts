import type { z } from 'zod';
import type { Dwell as DwellSchema, Shelf, StepId } from '../contract/index.ts';
import { DWELLS } from '../trade/index.ts';
import type { Span, Substrate, TimedStepId } from '../trade/index.ts';
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
    ...(min === undefined || span.min === null ? [] : [`least: ${cite(min)}`]),
    ...(target === undefined ? [] : [`aim: ${cite(target)}`]),
    ...(max === undefined || span.max === null ? [] : [`most: ${cite(max)}`]),
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

/** The substrate that takes acid for the shortest time, of those that are etched; null where none is. */
const tightest = ({ seats, trade }: UnitContext): Substrate | null => {
  const etched = seats.flatMap(({ substrate }) => trade.substrates[substrate]);
  const most = ({ etch }: Substrate): number => etch?.max ?? Infinity;
  return (
    etched
      .filter(({ etch }) => etch !== null)
      .toSorted((one, other) => most(one) - most(other))[0] ?? null
  );
};

/** The longest rinse that any of them asks for. */
const longestRinse = ({ seats, trade, substrate }: UnitContext): Span =>
  seats
    .map((seat) => trade.substrates[seat.substrate])
    .filter(({ etch }) => etch !== null)
    .map(({ rinse }) => rinse)
    .toSorted((one, other) => (other.min ?? 0) - (one.min ?? 0))[0] ?? substrate.rinse;

/** Windows that depend on the substrate, the light or the cement. */
const WORKED_OUT: Partial<Readonly<Record<StepId, (context: UnitContext) => Dwell | null>>> = {
  'tooth-etch': (context) => {
    const etch = tightest(context)?.etch ?? null;
    return etch === null ? null : fromSpan(etch, false);
  },
  'tooth-etch-rinse': (context) => fromSpan(longestRinse(context), true),
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
  const dentin = context.seats.some(({ substrate }) => substrate === 'dentin');
  if (step !== 'tooth-etch' || !dentin) {
    return { ...outranked, source: named };
  }
  const most = dwell.maxS ?? outranked.targetS;
  return {
    ...outranked,
    minS: Math.min(outranked.minS, most),
    targetS: Math.min(outranked.targetS, most),
    maxS: Math.min(outranked.maxS ?? most, most),
    source: `${named}, at most ${most} s on dentin (${cite(context.trade.substrates.dentin.etch)})`,
  };
};
