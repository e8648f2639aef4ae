/** What was found when a restoration came off, and what that is consistent with. */
import { html, nothing, type TemplateResult } from 'lit';
import { DEBOND_EVENTS } from '../../machines/trade/index.ts';
import { SITE_WORDS, SITES_SEEN } from '../../machines/review/weigh/index.ts';
import type { Weighing } from '../../machines/review/weigh/index.ts';
import { choiceField, otherProblems, textField, tickField } from './field.ts';
import type { Actions } from './model.ts';
import type { FindingsDraft, ReviewedView, ReviewState } from './review-model.ts';

type Weighed = Weighing['ranked'][number];
type Bounds = Weighed['share'];

const SHOWN = ['tooth', 'lost'];

const percent = (share: number): string => {
  const hundredths = Math.round(share * 100);
  if (hundredths === 0) return 'under 1';
  return hundredths === 100 ? 'over 99' : String(hundredths);
};

/** A share with its range: `88 % (71 to 95)`. */
export function shareWords({ low, likely, high }: Bounds): string {
  const range = high > low ? ` (${percent(low)} to ${percent(high)})` : '';
  return `${percent(likely)} %${range}`;
}

const left = (share: number): string => `${(share * 100).toFixed(1)}%`;

function weighedRow({ says, share, wide }: Weighed): TemplateResult {
  return html`<tr>
    <th scope="row" class="cause">${says.replace('consistent with: ', '')}</th>
    <td class="num">${shareWords(share)}</td>
    <td class="num">${percent(wide.low)} to ${percent(wide.high)} %</td>
    <td class="share" aria-hidden="true">
      <span class="share-track">
        <span
          class="share-wide"
          style=${`left:${left(wide.low)};width:${left(wide.high - wide.low)}`}
        ></span>
        <span
          class="share-range"
          style=${`left:${left(share.low)};width:${left(share.high - share.low)}`}
        ></span>
        <span class="share-likely" style=${`left:${left(share.likely)}`}></span>
      </span>
    </td>
  </tr>`;
}

function tellApartList({ tellApart, ranked }: Weighing): TemplateResult {
  const [first, second] = ranked;
  const looks = tellApart.findings.slice(0, 2).map(({ name }) => `look ${name}`);
  const events = tellApart.events
    .slice(0, 2)
    .map(
      ({ name, ratio, frequency }) =>
        `find out whether this happened: ${name} (would multiply the odds by ${ratio.likely}${frequency === null ? '' : `; in ${frequency.seen} of ${frequency.of} reviewed here`})`,
    );
  const all = [...looks, ...events];
  return html`<h3>What would tell the first two apart</h3>
    ${
      all.length === 0
        ? html`<p>Nothing more that the tables know of.</p>`
        : html`<p>
              ${first?.says.replace('consistent with: ', '')}, or
              ${second?.says.replace('consistent with: ', '')}:
            </p>
            <ul class="plain-list">
              ${all.map((one) => html`<li>${one}</li>`)}
            </ul>`
    }`;
}

function outcome(weighing: Weighing): TemplateResult {
  const { ranked, working, events, caveats } = weighing;
  return html`<div class="weighed" role="status">
    <h3>What the loss is consistent with</h3>
    <div class="entries" tabindex="0" role="region" aria-label="What it is consistent with">
      <table>
        <thead>
          <tr>
            <th scope="col">What it is consistent with</th>
            <th scope="col">Share</th>
            <th scope="col">If the tables are off by a factor of two</th>
            <td aria-hidden="true"></td>
          </tr>
        </thead>
        <tbody>
          ${ranked.map(weighedRow)}
        </tbody>
      </table>
    </div>
    ${
      events.length === 0
        ? nothing
        : html`<p>
            Weighed from the seating:
            ${events
              .map(
                ({ event, entries, shownBy }) =>
                  `${event.name}${shownBy.length === 0 ? '' : `, taken from: ${shownBy.join(', ')}`}${entries.length === 0 ? '' : ` (entries ${entries.join(', ')})`}`,
              )
              .join('; ')}.
          </p>`
    }
    ${tellApartList(weighing)} ${caveats.map((one) => html`<p class="note">${one}</p>`)}
    <details>
      <summary>The arithmetic</summary>
      <ol class="working">
        ${working.map((one) => html`<li>${one}</li>`)}
      </ol>
    </details>
  </div>`;
}

/** The form of findings for the record shown, and what they are consistent with. */
export function findingsForm(
  review: ReviewState,
  { record }: ReviewedView,
  actions: Actions,
): TemplateResult {
  const { findings, problems, weighing } = review;
  const edit = (change: Partial<FindingsDraft>): void =>
    actions.editFindings({ ...findings, ...change });
  return html`<section class="findings">
    <h2>It came off</h2>
    <div class="findings-form">
      ${choiceField(
        {
          path: 'tooth',
          label: 'Restoration',
          value: findings.tooth,
          none: 'Choose',
          choices: record.units.map(({ tooth, material }) => [
            tooth,
            `${tooth}, ${material.replaceAll('-', ' ')}`,
          ]),
          set: (tooth) => edit({ tooth }),
        },
        problems,
      )}
      ${choiceField(
        {
          path: 'cement',
          label: 'Where ¾ of the cement stayed',
          value: findings.cement,
          choices: SITES_SEEN.map((site) => [
            site,
            site === 'not-seen' ? 'not looked at' : SITE_WORDS[site],
          ]),
          set: (cement) => edit({ cement }),
        },
        problems,
      )}
      ${choiceField(
        {
          path: 'coreInside',
          label: 'Core or tooth inside it',
          value: findings.coreInside,
          choices: [
            ['not-seen', 'not looked at'],
            ['no', 'no'],
            ['yes', 'yes'],
          ],
          set: (inside) =>
            edit({ coreInside: inside === 'yes' || inside === 'no' ? inside : 'not-seen' }),
        },
        problems,
      )}
      ${textField(
        {
          path: 'lost',
          label: 'Came off on',
          kind: 'date',
          value: findings.lost,
          set: (lost) => edit({ lost }),
        },
        problems,
      )}
      ${choiceField(
        {
          path: 'form',
          label: 'Resistance form',
          value: findings.form,
          choices: [
            ['not-known', 'as the plan worked out'],
            ['holds', 'has it'],
            ['lacks', 'lacks it'],
          ],
          set: (form) => edit({ form }),
        },
        problems,
      )}
    </div>
    <details>
      <summary>Known otherwise, not from the record</summary>
      <div class="known">
        ${Object.entries(DEBOND_EVENTS).map(([id, { name }]) =>
          tickField(
            {
              path: `known.${id}`,
              label: name,
              value: findings.known.includes(id),
              set: (on) =>
                edit({
                  known: on ? [...findings.known, id] : findings.known.filter((one) => one !== id),
                }),
            },
            [],
          ),
        )}
      </div>
    </details>
    ${otherProblems(problems, (path) => SHOWN.includes(path))}
    ${weighing === null ? nothing : outcome(weighing)}
  </section>`;
}
