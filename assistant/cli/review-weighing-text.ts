import type { Weighing } from '../../machines/review/weigh/index.ts';
import { wrapped } from './text.ts';

const share = (value: number): string => (value < 0.005 ? 'under 0.01' : value.toFixed(2));

/** What a loss is consistent with, the arithmetic, and what would tell the first two apart. */
export function weighingText(weighing: Weighing, record: string | null): string {
  const { tooth, ranked, working, events, tellApart, caveats } = weighing;
  const causes = ranked.map(({ says, share: of, wide }, i) =>
    wrapped(
      `${i + 1}. ${says}: ${share(of.likely)}${of.high > of.low ? ` (${share(of.low)} to ${share(of.high)})` : ''} [${share(wide.low)} to ${share(wide.high)}]`,
      '  ',
      '     ',
    ),
  );
  const seen = events.map(({ event, entries, from, shownBy }) => {
    const where = entries.length > 0 ? `entries ${entries.join(', ')}` : from;
    const by = shownBy.length === 0 ? '' : `, taken from: ${shownBy.join(', ')}`;
    return wrapped(`- ${event.name}${by} (${where})`, '  ', '    ');
  });
  return [
    `Tooth ${tooth} came off${record === null ? ', without a record' : `; its record is ${record}`}. This is
(share, with the range of the tables; in brackets, were the judged tables off twofold)`,
    ...causes,
    ...(seen.length === 0 ? [] : ['In the record or known:', ...seen]),
    'Worked out:',
    ...working.map((line) => wrapped(line, '  ', '    ')),
    'What would tell the first two apart:',
    ...tellApartLines(tellApart),
    ...caveats.map((line) => wrapped(line, '', '')),
    '',
  ].join('\n');
}

/** Findings still to be made and events still to be known, the most telling first. */
function tellApartLines({ findings, events }: Weighing['tellApart']): readonly string[] {
  const looks = findings
    .slice(0, 3)
    .map(({ name, expectedLogRatio }) =>
      wrapped(
        `- ${name} (expected to move the odds ${Math.exp(expectedLogRatio).toFixed(1)} times)`,
        '  ',
        '    ',
      ),
    );
  const known = events
    .slice(0, 3)
    .map(({ name, ratio, frequency, expectedLogRatio }) =>
      wrapped(
        `- whether this happened: ${name} (would multiply the odds by ${ratio.likely}; ${expectedLogRatio === null || frequency === null ? 'how often it happens is not known' : `in ${frequency.seen} of ${frequency.of} reviewed here, so expected to move the odds ${Math.exp(expectedLogRatio).toFixed(1)} times`})`,
        '  ',
        '    ',
      ),
    );
  return looks.length + known.length === 0
    ? ['  Nothing that the tables know of.']
    : [...looks, ...known];
}
