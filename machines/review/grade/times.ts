import type { Header } from '../../contract/index.ts';
import type { GradedDeviation } from '../deviation.ts';
import type { Activity, Served, Trace } from '../trace/activity.ts';
import { seconds, titleOf, windowWords } from './words.ts';

/** A later serving of the same step in full. */
function redoneBy(served: readonly Served[], one: Served): Served | null {
  return (
    served.find(
      ({ tooth, step, entry, servedS, window }) =>
        tooth === one.tooth &&
        step === one.step &&
        entry > one.entry &&
        servedS >= window.minS &&
        (window.maxS === null || servedS <= window.maxS),
    ) ?? null
  );
}

/** Dwells outside their window. */
export function fromDwells(header: Header, { served }: Trace): readonly GradedDeviation[] {
  return served.flatMap((one): GradedDeviation[] => {
    const { tooth, step, servedS, window, begun, entry } = one;
    const { minS, targetS, maxS, source } = window;
    const short = servedS < minS;
    const long = maxS !== null && servedS > maxS;
    if (!short && !long) return [];
    const redone = short ? redoneBy(served, one) : null;
    const later = redone === null ? '' : `; served in full later, entry ${redone.entry}`;
    return [
      {
        grade: short ? 'short' : 'long',
        tooth,
        step,
        entries: [...new Set([begun, entry])],
        asked: `${titleOf(header, tooth, step)}: ${windowWords(window)}`,
        found: `${seconds(servedS)}${later}`,
        source,
        refusal: null,
        measured: { seconds: servedS, minS, targetS, maxS },
        ...(redone === null ? {} : { redone: redone.entry }),
      },
    ];
  });
}

const sinceS = (made: Activity, used: Activity): number => (used.from - made.at) / 1000;

/** Surfaces used after what made them had gone stale. */
function stale(header: Header, { activities }: Trace): readonly GradedDeviation[] {
  return header.plan.units.flatMap(({ tooth, steps, spare }) => {
    const mine = activities.filter((one) => one.tooth === tooth);
    return [...steps, ...spare].flatMap(({ id, title, goodFor }): GradedDeviation[] => {
      if (goodFor === null) return [];
      return mine.flatMap((made, i): GradedDeviation[] => {
        if (made.step !== id) return [];
        const rest = mine.slice(i + 1);
        const used = rest.find(
          ({ step }) => step === id || (step !== null && goodFor.before.includes(step)),
        );
        if (used === undefined || used.step === null || used.step === id) return [];
        const late = sinceS(made, used);
        if (late <= goodFor.seconds) return [];
        return [
          {
            grade: 'late',
            tooth,
            step: used.step,
            entries: [...new Set([made.entry, used.begun ?? used.entry])],
            asked: `${titleOf(header, tooth, used.step)} within ${seconds(goodFor.seconds)} of "${title}"`,
            found: `${seconds(late)} after it`,
            source: goodFor.source,
            refusal: null,
            measured: { seconds: late, minS: null, targetS: null, maxS: goodFor.seconds },
            since: id,
          },
        ];
      });
    });
  });
}

/** Seated after the cement's working time. */
function overdue(header: Header, { activities }: Trace): readonly GradedDeviation[] {
  return header.plan.units.flatMap(({ tooth, cement }) => {
    const mine = activities.filter((one) => one.tooth === tooth);
    return mine.flatMap((seat, i): GradedDeviation[] => {
      if (seat.step !== 'seat') return [];
      const mix = mine.slice(0, i).findLast(({ step }) => step === 'mix');
      const late = mix === undefined ? 0 : sinceS(mix, seat);
      if (mix === undefined || late <= cement.workingS) return [];
      return [
        {
          grade: 'late',
          tooth,
          step: 'seat',
          entries: [mix.entry, seat.entry],
          asked: `seated within ${seconds(cement.workingS)} of the mix`,
          found: `${seconds(late)} after it`,
          source: cement.workingFrom,
          refusal: null,
          measured: { seconds: late, minS: null, targetS: null, maxS: cement.workingS },
          since: 'mix',
        },
      ];
    });
  });
}

/** Everything that was late: stale surfaces and spent working time. */
export const fromDelays = (header: Header, trace: Trace): readonly GradedDeviation[] => [
  ...stale(header, trace),
  ...overdue(header, trace),
];
