import type { Header, Reason } from '../../contract/index.ts';
import type { GradedDeviation } from '../deviation.ts';
import type { Claimed, Trace } from '../trace/activity.ts';
import { demandOf, PRACTICE, titleOf, windowWords, planStepOf } from './words.ts';

const because = (reason: Reason | null): string =>
  reason === null ? '' : `: ${reason.replaceAll('-', ' ')}`;

/** What was refused and carried out all the same; one for each refusal that was overridden. */
export function fromForce(header: Header, { forced }: Trace): readonly GradedDeviation[] {
  return forced.flatMap(({ tooth, step, refusals, reason, entries }) =>
    refusals.map((refusal): GradedDeviation => {
      const { asked, source } = demandOf(refusal);
      const what = step === null ? 'carried out' : titleOf(header, tooth, step);
      return {
        grade: 'refused and forced',
        tooth,
        step,
        entries,
        asked,
        found: `${what}, overridden${because(reason)}`,
        source,
        refusal,
        measured: null,
      };
    }),
  );
}

function claim(header: Header, { what, tooth, step, entry, reason }: Claimed): GradedDeviation {
  const base = { grade: 'unverified', tooth, step, entries: [entry], refusal: null } as const;
  if (what === 'unmeasured') {
    const window = step === null ? null : (planStepOf(header.plan, tooth, step)?.dwell ?? null);
    const title = step === null ? '' : titleOf(header, tooth, step);
    return {
      ...base,
      asked: `${title}${window === null ? '' : `: ${windowWords(window)}`}`,
      found: 'called done; nobody timed it',
      source: window?.source ?? PRACTICE,
      measured: null,
    };
  }
  const counted = what === 'counted-clean';
  return {
    ...base,
    asked: counted ? 'cleaned after the try-in' : 'what was reported stands, or is cleaned',
    found: counted ? `counted as clean${because(reason)}` : 'a contamination was taken back',
    source: counted ? 'law 1: nothing seats on an intaglio that is not clean' : PRACTICE,
    measured: null,
  };
}

/** Lots called done where the whole record has none, neither said nor on the shelf. */
function lotless(header: Header, { activities, lots }: Trace): readonly GradedDeviation[] {
  const done = activities.find(({ step }) => step === 'lots');
  const { cements, ...items } = header.case.shelf;
  const shelf = [...Object.values(items), ...cements].some(
    (item) => typeof item === 'object' && item !== null && 'lot' in item && item.lot !== undefined,
  );
  if (done === undefined || lots.length > 0 || shelf) return [];
  return [
    {
      grade: 'unverified',
      tooth: null,
      step: 'lots',
      entries: [done.entry],
      asked: 'the lots of crown and materials in the record',
      found: 'no lot in the record, none on the shelf',
      source: PRACTICE,
      refusal: null,
      measured: null,
    },
  ];
}

/** Agents past their date, used for a reason the case gives. */
const expired = ({ plan }: Header): readonly GradedDeviation[] =>
  plan.expired.map(({ item, lot, expires, reason }) => ({
    grade: 'wrong agent',
    tooth: null,
    step: null,
    entries: [],
    asked: `${item} within its date`,
    found: `lot ${lot}, past ${expires}: ${reason}`,
    source: 'the shelf of the practice',
    refusal: null,
    measured: null,
  }));

/** What was said and not shown: counted as clean, taken back, called done without a clock, no lot, or one past its date. */
export const fromClaims = (header: Header, trace: Trace): readonly GradedDeviation[] => [
  ...trace.claimed.map((one) => claim(header, one)),
  ...lotless(header, trace),
  ...expired(header),
];
