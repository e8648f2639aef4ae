import { CAUSE_TABLE, CAUSES, WEIGHING } from '../../trade/index.ts';
import type { Cause } from '../../trade/index.ts';
import type { GradedDeviation } from '../deviation.ts';
import { eventsSeen, strongest } from './events.ts';
import type { SeenEvent } from './events.ts';
import { daysInPlace, evidenceOf, openQuestions } from './evidence.ts';
import type { WeighFacts } from './evidence.ts';
import type { Findings } from './findings.ts';
import { digits, exactly, product, shares, shownInterval } from './interval.ts';
import type { Interval } from './interval.ts';
import { tellApart } from './tell-apart.ts';
import type { Frequencies, TellApart } from './tell-apart.ts';

/** One number of the arithmetic. */
export interface Factor {
  readonly what: string;
  readonly value: Interval;
}

/** What the loss is consistent with, and how strongly beside the others. */
export interface Weighed {
  readonly cause: Cause;
  /** `consistent with ...`: findings do not show what caused it. */
  readonly says: string;
  readonly factors: readonly Factor[];
  readonly weight: Interval;
  /** Share among the causes, with the ranges that the tables give. */
  readonly share: Interval;
  /** The same, were every judged number off by the factor that the tables doubt themselves by. */
  readonly wide: Interval;
}

/** Findings and deviations, weighed. */
export interface Weighing {
  readonly tooth: string;
  /** The most consistent first. */
  readonly ranked: readonly Weighed[];
  /** The arithmetic, a line a cause, then the sum and the shares. */
  readonly working: readonly string[];
  readonly events: readonly SeenEvent[];
  /** Deviations that the table has no ratio for. */
  readonly notWeighed: readonly GradedDeviation[];
  readonly tellApart: TellApart;
  readonly caveats: readonly string[];
}

function factorsOf(
  cause: Cause,
  evidence: ReturnType<typeof evidenceOf>,
  seen: readonly SeenEvent[],
): Factor[] {
  const top = strongest(seen, cause);
  const found = evidence.map(({ what, chance }) => ({ what, value: exactly(chance(cause)) }));
  if (top === null)
    return [{ what: 'prior', value: exactly(CAUSE_TABLE[cause].prior.value) }, ...found];
  const { min, target, max } = top.event.ratio;
  const ratio = { low: min ?? target, likely: target, high: max ?? target };
  return [
    { what: 'prior', value: exactly(CAUSE_TABLE[cause].prior.value) },
    ...found,
    { what: top.event.name, value: ratio },
  ];
}

/** Every judged number of a cause together off by the tables' doubt, either way. */
function doubted({ low, likely, high }: Interval): Interval {
  const by = WEIGHING.doubt.value;
  return { low: low / by, likely, high: high * by };
}

const line = (name: string, factors: readonly Factor[], weight: Interval): string =>
  `${name}: ${factors.map(({ what, value }) => `${what} ${shownInterval(value)}`).join(' x ')} = ${shownWeight(weight)}`;

/** Weights are small: four digits after the point would hide them. */
const shownWeight = ({ low, likely, high }: Interval): string => {
  const four = (value: number): string => Number(value.toPrecision(4)).toString();
  return high > low ? `${four(likely)} (${four(low)} to ${four(high)})` : four(likely);
};

function caveatsOf(
  findings: Findings,
  facts: WeighFacts | null,
  ranked: readonly Weighed[],
): string[] {
  const caveats = [
    'Priors and chances are judgement, made for a bonded zirconia crown; the shares are no more than that.',
  ];
  if (facts === null) caveats.push('There is no record: the seating itself is not weighed.');
  else if (facts.kind !== 'crown' || !facts.material.startsWith('zirconia')) {
    caveats.push(
      `This one is not (${facts.kind}, ${facts.material}): the tables are stretched to it.`,
    );
  }
  if ((daysInPlace(findings, facts) ?? 0) < 0) {
    caveats.push(
      'It is said to have come off before the record has it seated: how long it was in place is left out.',
    );
  }
  const [first, second] = ranked;
  if (first !== undefined && second !== undefined && first.share.low <= second.share.high) {
    caveats.push('The first two overlap: their order is not sure.');
  }
  return caveats;
}

/**
 * Weighs what was found at the loss of a restoration, together with the departures of its seating,
 * by the trade's tables. `deviations` are those of the whole record; `facts` are the unit's, null
 * where there is no record; `frequencies` how often events happen in the records reviewed together.
 * Never says "caused by".
 */
export function weigh(
  findings: Findings,
  deviations: readonly GradedDeviation[],
  facts: WeighFacts | null,
  frequencies: Frequencies = {},
): Weighing {
  const material = facts?.material ?? null;
  const mine = deviations.filter(({ tooth }) => tooth === null || tooth === findings.tooth);
  const seen = eventsSeen(mine, findings.known, material, facts?.findings);
  const evidence = evidenceOf(findings, facts);
  const rows = CAUSES.map((cause) => {
    const factors = factorsOf(cause, evidence, seen);
    return { cause, factors, weight: product(factors.map(({ value }) => value)) };
  });
  const own = shares(rows.map(({ weight }) => weight));
  const wide = shares(rows.map(({ weight }) => doubted(weight)));
  const ranked = rows
    .map((row, i): Weighed => {
      const says = `consistent with: ${CAUSE_TABLE[row.cause].name}`;
      return { ...row, says, share: own[i] ?? exactly(0), wide: wide[i] ?? exactly(0) };
    })
    .toSorted((one, other) => other.share.likely - one.share.likely);
  const [first, second] = ranked;
  if (first === undefined || second === undefined) throw new Error('There are seven causes.');
  const weighedEntries = new Set(seen.flatMap(({ entries }) => entries));
  const sum = rows.reduce((so, { weight }) => so + weight.likely, 0);
  return {
    tooth: findings.tooth,
    ranked,
    working: [
      ...ranked.map(({ cause, factors, weight }) => line(CAUSE_TABLE[cause].name, factors, weight)),
      `sum of the most likely = ${Number(sum.toPrecision(4))}`,
      ...ranked.map(
        ({ cause, share, wide: doubt }) =>
          `${CAUSE_TABLE[cause].name}: ${shownInterval(share)}; ${digits(doubt.low)} to ${digits(doubt.high)} were the judged numbers off by ${WEIGHING.doubt.value}`,
      ),
    ],
    events: seen,
    notWeighed: mine.filter(
      (deviation) =>
        eventsSeen([deviation], [], material).length === 0 &&
        !deviation.entries.some((entry) => weighedEntries.has(entry)),
    ),
    tellApart: tellApart(
      [first.cause, second.cause],
      [first.share.likely, second.share.likely],
      openQuestions(findings, facts, evidence),
      seen,
      material,
      frequencies,
    ),
    caveats: caveatsOf(findings, facts, ranked),
  };
}

/** What a weighing has to say of a record that was cut off. */
export const cutCaveat = (after: number): string =>
  `The record is cut off after entry ${after}: what was done or left out after that is not weighed.`;
