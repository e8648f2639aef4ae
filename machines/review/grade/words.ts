import type { Dwell, Header, Plan, PlanStep, RefusalId, StepId } from '../../contract/index.ts';

/** Where a demand of the house comes from. */
const LAWS = {
  1: 'law 1: nothing seats on an intaglio that is not clean, conditioned and primed',
  2: 'law 2: caustic agents and abrasion only outside the mouth',
  3: 'law 3: each agent only on the material it is for',
  4: 'law 4: after silicone the conditioning is done again',
  6: 'law 6: both surfaces ready and the field dry before the cement',
  7: 'law 7: no dwell ends before its minimum',
  9: 'the order of the appointment (common practice, no source)',
} as const;

interface Demand {
  readonly asked: string;
  readonly law: keyof typeof LAWS;
}

/** What a refusal asked for, of those that can be overridden. */
const DEMANDS: Partial<Readonly<Record<RefusalId, Demand>>> = {
  'primer-on-glass': { asked: 'silane, not a phosphate primer', law: 1 },
  'cleaner-on-glass': { asked: 'acid, not cleaning paste', law: 1 },
  'acid-on-dentin': { asked: 'no phosphoric acid on this dentin', law: 6 },
  'intaglio-soiled': { asked: 'a clean inner surface', law: 1 },
  'silicone-needs-etch': { asked: 'hydrofluoric acid after silicone', law: 4 },
  'silicone-needs-abrasion': { asked: 'abrasion after silicone', law: 4 },
  'intaglio-not-conditioned': { asked: 'an inner surface etched or abraded', law: 1 },
  'intaglio-not-primed': { asked: 'a primed inner surface', law: 1 },
  'intaglio-wet': { asked: 'a dry inner surface', law: 1 },
  'intaglio-busy': { asked: 'nothing else on the inner surface meanwhile', law: 1 },
  'not-rinsed': { asked: 'the agent rinsed off', law: 1 },
  'prep-not-ready': { asked: 'the prep conditioned', law: 6 },
  'prep-not-clean': { asked: 'a clean prep', law: 6 },
  'peroxide-on-tooth': { asked: 'resin kept from a tooth with peroxide on it', law: 6 },
  'field-open': { asked: 'the field isolated', law: 6 },
  'field-wet': { asked: 'the field shown to be dry', law: 6 },
  'working-time-over': { asked: 'seating within the working time', law: 6 },
  'dwell-too-short': { asked: 'the least time served', law: 7 },
  'provisional-on': { asked: 'the provisional off', law: 9 },
  'surface-stale': { asked: 'a surface that has not gone stale', law: 9 },
  first: { asked: 'what comes before it', law: 9 },
  'not-planned': { asked: 'a step this plan has', law: 9 },
  'not-on-shelf': { asked: 'an agent that is on the shelf', law: 9 },
};

/** What was asked for when a command was refused, and where that comes from. */
export function demandOf(refusal: RefusalId): { readonly asked: string; readonly source: string } {
  const demand = DEMANDS[refusal];
  if (demand === undefined) return { asked: refusal.replaceAll('-', ' '), source: LAWS[9] };
  return { asked: demand.asked, source: LAWS[demand.law] };
}

export const PRACTICE = LAWS[9];

/** The plan's step of a unit or of the case. */
export function planStepOf(plan: Plan, tooth: string | null, step: StepId): PlanStep | null {
  const units = plan.units.filter((unit) => tooth === null || unit.tooth === tooth);
  for (const { steps, spare } of units) {
    const found = [...steps, ...spare].find(({ id }) => id === step);
    if (found !== undefined) return found;
  }
  return null;
}

/** A step by the name the plan gives it. */
export const titleOf = ({ plan }: Header, tooth: string | null, step: StepId): string =>
  planStepOf(plan, tooth, step)?.title ?? step.replaceAll('-', ' ');

/** Seconds as people read them: at most one decimal. */
export const seconds = (value: number): string => `${Math.round(value * 10) / 10} s`;

/** A window in words. */
export function windowWords({ minS, targetS, maxS, from }: Dwell): string {
  const most = maxS === null ? 'at least' : '';
  const span = maxS === null ? seconds(minS) : `${minS} to ${seconds(maxS)}`;
  const aim = targetS === minS || targetS === maxS ? '' : `, aim ${seconds(targetS)}`;
  return `${most} ${span}${aim}${from === 'mix' ? ' from the mix' : ''}`.trim();
}
