/** Invented reviews: one record with a lost crown, and a practice of many. */
import type { GradedDeviation, ReviewedRecord } from '../../machines/review/index.ts';
import { counterfactual, Reviewer } from '../../machines/review/index.ts';
import { FollowUps, PatternReview } from '../../machines/review/pattern/index.ts';
import { Findings, weigh } from '../../machines/review/weigh/index.ts';
import { GALLERY_HEADER, galleryEntries } from './gallery-case.ts';
import type { SeatingBar } from './picture-seating.ts';
import {
  BLANK_FINDINGS,
  NO_REVIEW,
  type ReviewedView,
  type ReviewRow,
  type ReviewState,
} from './review-model.ts';

const bar = (
  title: string,
  fromS: number,
  servedS: number,
  [minS, targetS, maxS]: readonly [number, number, number | null],
): SeatingBar => ({ title, fromS, servedS, minS, targetS, maxS });

const BARS: readonly SeatingBar[] = [
  bar('Rinse the intaglio', 212, 22, [20, 20, null]),
  bar('Cleaner', 246, 12, [20, 20, 60]),
  bar('Rinse the cleaner off', 270, 21, [20, 20, null]),
  bar('Dry the intaglio', 301, 11, [5, 10, null]),
  bar('Phosphate primer', 322, 34, [20, 30, 60]),
  bar('Dry check', 402, 31, [30, 30, null]),
  bar('Etch the tooth', 447, 24, [10, 12, 15]),
  bar('Adhesive', 496, 22, [20, 20, null]),
  bar('Seat and hold', 571, 46, [30, 45, 60]),
  bar('Cure, buccal', 672, 8.5, [20, 20, null]),
  bar('Let it set', 560, 371, [360, 360, null]),
];

const departure = (more: Partial<GradedDeviation>): GradedDeviation => ({
  grade: 'short',
  tooth: '46',
  step: 'cleaner',
  entries: [6, 7],
  asked: 'Cleaner: 20 to 60 s',
  found: '12 s',
  source: 'common practice, no source',
  refusal: null,
  measured: { seconds: 12, minS: 20, targetS: 20, maxS: 60 },
  ...more,
});

const DEPARTURES: readonly GradedDeviation[] = [
  departure({}),
  departure({
    grade: 'not done',
    step: 'shade-photo',
    tooth: null,
    entries: [3],
    asked: 'Shade photo, after "Disinfect"',
    found: 'skipped: already done',
    measured: null,
  }),
];

const seen = new Reviewer().review('demo-46-15.jsonl', {
  header: GALLERY_HEADER,
  entries: galleryEntries(),
});
const record: ReviewedRecord = { ...seen, deviations: DEPARTURES };
const view: ReviewedView = {
  record,
  sealed: true,
  seatings: [{ tooth: '46', bars: BARS }],
  guard: counterfactual(GALLERY_HEADER, galleryEntries()),
};

const rowOf = ({ record: one }: ReviewedView): ReviewRow => ({
  name: one.record,
  reference: one.reference,
  departures: one.deviations.length,
  cut: one.cutAfter !== undefined,
  invented: one.invented,
});

/** 120 invented crowns; those without cleaner come off more often. */
function practice(): ReviewedView[] {
  return Array.from({ length: 120 }, (_, i) => {
    const [unit] = record.units;
    const deviations = i % 4 === 0 ? [departure({ grade: 'not done', entries: [] })] : [];
    const one: ReviewedRecord = {
      ...record,
      record: `demo-${i}.jsonl`,
      reference: `DEMO-${i}`,
      units:
        unit === undefined
          ? []
          : [
              {
                ...unit,
                seated: '2027-03-01T10:00:00.000Z',
                material: i % 3 === 0 ? 'lithium-disilicate' : 'zirconia-3y',
                dwells: [
                  {
                    step: 'cleaner',
                    servedS: 18 + (i % 9),
                    minS: 20,
                    targetS: 20,
                    maxS: 60,
                    entries: [6, 7],
                  },
                ],
                deviations,
              },
            ],
      lots: [{ item: 'adhesive resin', lot: `INV-${i % 5}` }],
      deviations,
      guards:
        i % 6 === 0
          ? [{ refusal: 'in-mouth', tooth: '46', step: 'cleaner', entry: 8, forced: false }]
          : [],
    };
    return { ...view, record: one, seatings: [] };
  });
}

function many(): ReviewState {
  const records = practice();
  const followUps = new FollowUps();
  for (const [i] of records.entries()) {
    const lost = i % 4 === 0 ? i % 3 !== 1 : i % 11 === 0;
    const month = String(1 + (i % 12)).padStart(2, '0');
    const lastSeen = `${lost ? 2027 + (i % 3) : 2030 + (i % 3)}-${month}-15`;
    const day = lastSeen < '2027-03-01' ? '2027-04-15' : lastSeen;
    followUps.add({
      reference: `DEMO-${i}`,
      tooth: '46',
      seated: '2027-03-01',
      lastSeen: day,
      ...(lost ? { debonded: day } : {}),
    });
  }
  const pattern = new PatternReview(followUps);
  for (const one of records) pattern.add(one.record);
  return {
    ...NO_REVIEW,
    rows: records.map(rowOf),
    followed: 120,
    pattern: pattern.result(),
  };
}

const findings = {
  ...BLANK_FINDINGS,
  tooth: '46',
  cement: 'on-tooth',
  lost: '2031-08-09',
} as const;

/** The review page in its shapes. */
export const REVIEWS: Readonly<Record<string, ReviewState>> = {
  'review-blank': NO_REVIEW,
  'review-lost': {
    ...NO_REVIEW,
    rows: [rowOf(view)],
    view,
    failed: [{ name: 'demo-21.jsonl', message: 'line 18: Entry 17 was changed.' }],
    chosen: 0,
    findings,
    weighing: weigh(
      Findings.parse({
        format: 'seatcall-findings/1',
        invented: true,
        tooth: '46',
        cement: 'on-tooth',
        seated: '2031-04-09',
        lost: findings.lost,
      }),
      DEPARTURES,
      record.units[0] ?? null,
    ),
  },
  'review-pattern': many(),
};
