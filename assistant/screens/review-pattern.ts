/** Many reviewed records together: how long they held, what was left out, what was behind losses. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Pattern } from '../../machines/review/pattern/index.ts';
import { count, duration } from './format.ts';
import { skipPicture } from './picture-skips.ts';
import { survivalPicture } from './picture-survival.ts';

const p = (value: number | null): string =>
  value === null ? '' : value < 0.001 ? 'under 0.001' : value.toFixed(3);
const plain = (id: string): string => id.replaceAll('-', ' ');

interface Row {
  readonly head: string;
  readonly cells: readonly string[];
}

/** Rows that say nothing are left out with their table. */
function table(
  name: string,
  heads: readonly string[],
  rows: readonly Row[],
): TemplateResult | typeof nothing {
  if (rows.length === 0) return nothing;
  return html`<h3>${name}</h3>
    <div class="entries" tabindex="0" role="region" aria-label=${name}>
      <table>
        <thead>
          <tr>
            ${heads.map((head) => html`<th scope="col">${head}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ({ head, cells }) =>
              html`<tr>
                <th scope="row">${head}</th>
                ${cells.map((cell) => html`<td class="num">${cell}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
}

const MOST = 12;

function losses({ events, lots, departures }: Pattern): TemplateResult {
  return html`${table(
    'Hazard of those with an event of the seating, against those without',
    ['Event', 'Restorations', 'Came off', 'Hazard times', 'p'],
    events.map(({ name, restorations, debonds, ratio, few }) => ({
      head: name,
      cells: [
        String(restorations),
        `${debonds}${few ? ' (few)' : ''}`,
        ratio === null
          ? 'can’t be told'
          : `${ratio.ratio.toFixed(1)} (${ratio.lower.toFixed(1)} to ${ratio.upper.toFixed(1)})`,
        p(ratio?.p ?? null),
      ],
    })),
  )}
  ${table(
    'Lots of what came off',
    ['Lot', 'Restorations', 'Came off', 'Expected', 'p'],
    lots
      .filter(({ debonds }) => debonds > 0)
      .slice(0, MOST)
      .map(({ item, lot, restorations, debonds, expected, p: of, few }) => ({
        head: `${item} ${lot}`,
        cells: [
          String(restorations),
          `${debonds}${few ? ' (few)' : ''}`,
          expected === null ? '' : expected.toFixed(1),
          p(of),
        ],
      })),
  )}
  ${table(
    'Departures and losses, as they stand',
    ['Departure', 'Restorations', 'Came off', 'Expected', 'p'],
    departures
      .filter(({ debonds }) => debonds > 0)
      .slice(0, MOST)
      .map(({ grade, step, restorations, debonds, expected, p: of, few }) => ({
        head: `${step === null ? '' : `${plain(step)}: `}${grade}`,
        cells: [
          String(restorations),
          `${debonds}${few ? ' (few)' : ''}`,
          expected === null ? '' : expected.toFixed(1),
          p(of),
        ],
      })),
  )}`;
}

function habits({ guards, dwells }: Pattern): TemplateResult {
  return html`${table(
    'Guards hit',
    ['Refused for', 'Times', 'Records', 'Forced'],
    guards.slice(0, MOST).map(({ refusal, hits, records, forced }) => ({
      head: plain(refusal),
      cells: [String(hits), String(records), String(forced)],
    })),
  )}
  ${table(
    'How long dwells really took',
    ['Dwell', 'Served', 'Asked', 'Half within', 'Nine of ten between', 'Short', 'Long'],
    dwells.map(({ step, served, short, long, quantiles, minS, maxS }) => ({
      head: plain(step),
      cells: [
        String(served),
        maxS === null ? `${duration(minS)} or more` : `${duration(minS)} to ${duration(maxS)}`,
        duration(quantiles[2]),
        `${duration(quantiles[0])} and ${duration(quantiles[4])}`,
        String(short),
        String(long),
      ],
    })),
  )}`;
}

/** Traits stand side by side by their values, departures as with and without. */
const titleOf = (by: string): string =>
  ['material', 'cement', 'operator', 'form'].includes(by) ? `By ${by}` : `With and without: ${by}`;

/** The pattern over all records of the review. */
export function patternSection(pattern: Pattern): TemplateResult {
  const { records, invented, seated, followed, mismatched, all, comparisons, skips, compared } =
    pattern;
  const drawn = comparisons.filter(({ groups }) => groups.length > 1);
  return html`<section class="pattern">
    <h2>Pattern</h2>
    <p>
      ${invented > 0 ? html`<span class="chip">${invented} invented</span>` : nothing}
      ${count(records, 'record', 'records')}, ${count(seated, 'restoration', 'restorations')}
      seated, ${followed} followed, ${all.debonds} came
      off.${mismatched > 0 ? html` ${mismatched} have follow-up of another seating.` : nothing}
      ${
        followed > 0 && all.few
          ? html`<strong>Few losses: one more or less would change the picture.</strong>`
          : nothing
      }
    </p>
    ${
      followed === 0
        ? html`<p class="note">Add a follow-up file to see how long they held.</p>`
        : html`${survivalPicture([{ ...all, name: 'all' }], 'All restorations', null)}
            ${drawn.map(({ by, groups, logRank }) =>
              survivalPicture(
                groups.map((group) => ({ ...group, name: plain(group.name) })),
                titleOf(by),
                logRank?.p ?? null,
              ),
            )}
            ${losses(pattern)}
            <p class="note">
              ${compared} comparisons were made: of a hundred, about five look sure by chance alone.
              A difference says that two things go together, not that one brought the other about.
            </p>`
    }
    ${skipPicture(skips.map(({ step, asked, skipped }) => ({ title: plain(step), asked, skipped })))}
    ${habits(pattern)}
  </section>`;
}
