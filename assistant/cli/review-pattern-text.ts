import type { Pattern } from '../../machines/review/pattern/index.ts';
import { wrapped } from './text.ts';

/** So many rows of a list are told; the rest are in the JSON. */
const ROWS = 8;

const percent = (part: number, whole: number): string =>
  whole === 0 ? 'none' : `${((100 * part) / whole).toFixed(1)} %`;
const rate = (value: number | null): string =>
  value === null ? 'not known' : (100 * value).toFixed(2);
const pWords = (p: number | null): string =>
  p === null ? '' : `, p ${p < 0.001 ? 'under 0.001' : p.toFixed(3)}`;

/** What events of the seating did to the hazard, the surest first. */
function hazardLines({ events }: Pattern): readonly string[] {
  const told = events.flatMap(({ name, restorations, debonds, ratio, few }) =>
    ratio === null ? [] : [{ ...ratio, name, restorations, debonds, few }],
  );
  return told
    .toSorted((one, other) => one.p - other.p)
    .map((one) =>
      wrapped(
        `${one.ratio.toFixed(1)} (${one.lower.toFixed(1)} to ${one.upper.toFixed(1)}) with ${one.name}: ${one.debonds} of ${one.restorations} came off${one.few ? ' (small)' : ''}`,
        '  ',
        '    ',
      ),
    );
}

function survivalLines(pattern: Pattern): readonly string[] {
  const { all, comparisons, compared, lots, followed } = pattern;
  if (followed === 0) return ['No follow-up: how the seatings went, not how long they held.'];
  const { lower, upper } = all.rate;
  const few = all.few ? ' Few debonds: too few to say much.' : '';
  const groups = comparisons.flatMap((comparison) => [
    `By ${comparison.by}${pWords(comparison.logRank?.p ?? null)}${comparison.few ? ' (a group is small)' : ''}:`,
    ...comparison.groups.map(
      ({ name, restorations, debonds, rate: of }) =>
        `  ${name}: ${debonds} of ${restorations} came off, ${rate(of.rate)} a hundred a year`,
    ),
  ]);
  const behind = lots
    .filter(({ debonds }) => debonds > 0)
    .slice(0, ROWS)
    .map(
      ({ item, lot, debonds, restorations, expected, p, few: small }) =>
        `  ${item}, lot ${lot}: ${debonds} of ${restorations}${expected === null ? '' : `, ${expected.toFixed(1)} expected`}${pWords(p)}${small ? ' (small)' : ''}`,
    );
  const told = hazardLines(pattern);
  return [
    wrapped(
      `${followed} followed, ${all.debonds} came off: ${rate(all.rate.rate)} a hundred a year (${rate(lower)} to ${rate(upper)}).${few}`,
      '',
      '  ',
    ),
    ...groups,
    ...(told.length === 0
      ? []
      : ['Hazard times, evened out for material, time in place and one another:', ...told]),
    ...(behind.length === 0 ? [] : ['Lots of what came off:', ...behind]),
    wrapped(
      `${compared} comparisons were made: of a hundred, about five look sure by chance alone. A difference says that two things go together, not that one brought the other about.`,
      '',
      '  ',
    ),
  ];
}

/** Many records together, for a person. */
export function patternText(pattern: Pattern): string {
  const { records, invented, seated, guards, skips, dwells } = pattern;
  const skipped = skips.filter((one) => one.skipped > 0).slice(0, ROWS);
  const off = dwells
    .filter(({ short, long }) => short + long > 0)
    .toSorted((one, other) => other.short + other.long - one.short - one.long)
    .slice(0, ROWS);
  return [
    `${records} records${invented === 0 ? '' : `, ${invented} of them invented`}; ${seated} restorations seated`,
    ...survivalLines(pattern),
    'Steps not done most:',
    ...skipped.map(
      ({ step, asked, skipped: count }) =>
        `  ${step}: ${count} of ${asked} (${percent(count, asked)})`,
    ),
    'Guards hit most:',
    ...guards
      .slice(0, ROWS)
      .map(
        ({ refusal, hits, records: of, forced }) =>
          `  ${refusal}: ${hits} times in ${of} records, ${forced} forced`,
      ),
    'Dwells outside their window most:',
    ...off.map(
      ({ step, served, short, long, quantiles }) =>
        `  ${step}: ${short} short, ${long} long of ${served}; half took ${quantiles[2]} s or less`,
    ),
    '',
  ].join('\n');
}
