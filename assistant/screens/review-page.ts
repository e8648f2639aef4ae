/** The review: records beside their plans, what a loss is consistent with, and the pattern over many. */
import { html, nothing, type TemplateResult } from 'lit';
import type { GradedDeviation } from '../../machines/review/index.ts';
import { count, dayOf } from './format.ts';
import { sheet } from './frame.ts';
import { icon } from './icons.ts';
import type { Actions, AppState } from './model.ts';
import { lockedFileBox } from './passphrase-form.ts';
import { seatingPicture } from './picture-seating.ts';
import { press } from './press.ts';
import { findingsForm } from './review-findings.ts';
import type { ReviewedView, ReviewRow, ReviewState } from './review-model.ts';
import { patternSection } from './review-pattern.ts';

/** Records or files shown at once: a page of thousands would be slow, and nobody reads it. */
const SHOWN = 40;
const MOST_FAILED = 200;

const offsetOf = (iso: string): number => -new Date(iso).getTimezoneOffset();

const KINDS = '.jsonl,.ndjson,.jwe';

function filesField(actions: Actions, folder: boolean): TemplateResult {
  const id = folder ? 'review-folder' : 'review-files';
  return html`<div class="file">
    <label for=${id}
      >${
        folder
          ? 'Choose a whole folder of them'
          : 'Choose record files, and a follow-up file if there is one'
      }</label
    >
    <input
      id=${id}
      type="file"
      multiple
      ?webkitdirectory=${folder}
      accept="${KINDS},application/x-ndjson,application/jose"
      @change=${(event: Event) => {
        if (!(event.target instanceof HTMLInputElement)) return;
        // A folder comes with whatever else is in it.
        const files = [...(event.target.files ?? [])].filter(
          ({ name }) => !folder || KINDS.split(',').some((kind) => name.endsWith(kind)),
        );
        event.target.value = '';
        if (files.length > 0) actions.reviewFiles(files);
      }}
    />
  </div>`;
}

function sources(
  { reading, failed, followed, rows }: ReviewState,
  kept: number,
  actions: Actions,
): TemplateResult {
  return html`<div class="record-top">
    <p class="note">
      Files are read on this machine and go nowhere. A review says what a record shows and what a
      loss is consistent with; it does not say what caused it.
    </p>
    <div class="row-acts">${filesField(actions, false)} ${filesField(actions, true)}</div>
    <div class="row-acts">
      <button
        type="button"
        class="act"
        ?disabled=${kept === 0}
        @click=${press(() => actions.reviewKept())}
      >
        Review the ${count(kept, 'record', 'records')} kept here
      </button>
      <button
        type="button"
        class="act"
        ?disabled=${rows.length === 0 && failed.length === 0}
        @click=${press(() => actions.clearReview())}
      >
        Clear
      </button>
    </div>
    <p role="status">
      ${reading === null ? nothing : `Read ${reading.done} of ${reading.of}…`}
      ${followed > 0 ? `Follow-up of ${count(followed, 'restoration', 'restorations')} is known.` : nothing}
    </p>
    ${
      failed.length === 0
        ? nothing
        : html`<details class="rare" ?open=${failed.length <= SHOWN}>
            <summary>
              ${count(failed.length, 'file is', 'files are')} not reviewed, or not whole
            </summary>
            <ul class="others">
              ${failed
                .slice(0, MOST_FAILED)
                .map(({ name, message }) => html`<li>${name}: ${message}</li>`)}
            </ul>
            ${
              failed.length > MOST_FAILED
                ? html`<p class="note">
                    The first ${MOST_FAILED} are shown; the terminal names them all.
                  </p>`
                : nothing
            }
          </details>`
    }
  </div>`;
}

/** Rows whose case or file has the words looked for, with their places in the list. */
function matchingRows({ rows, query }: ReviewState): readonly { row: ReviewRow; at: number }[] {
  const wanted = query.trim().toLowerCase();
  return rows.flatMap((row, at) =>
    `${row.reference} ${row.name}`.toLowerCase().includes(wanted) ? [{ row, at }] : [],
  );
}

function recordList(review: ReviewState, actions: Actions): TemplateResult {
  const { rows, chosen, query } = review;
  const matching = matchingRows(review);
  return html`<nav class="reviewed-list" aria-label="Reviewed records">
    ${
      rows.length > SHOWN
        ? html`<div class="field">
            <label for="review-search">Look for a case</label>
            <input
              id="review-search"
              type="search"
              .value=${query}
              @input=${(event: Event) => {
                if (event.target instanceof HTMLInputElement)
                  actions.searchReviewed(event.target.value);
              }}
            />
          </div>`
        : nothing
    }
    <div class="reviewed">
      ${matching
        .slice(0, SHOWN)
        .map(
          ({ row, at }) =>
            html`<button
              type="button"
              class="act"
              aria-current=${at === chosen ? 'true' : nothing}
              @click=${press(() => actions.chooseReviewed(at))}
            >
              ${row.reference}${row.cut ? ' (incomplete)' : ''},
              ${count(row.departures, 'departure', 'departures')}
            </button>`,
        )}
    </div>
    ${
      matching.length > SHOWN
        ? html`<p class="note">
            ${SHOWN} of ${matching.length} are shown; look for a case to see the others. All of them
            are in the pattern.
          </p>`
        : nothing
    }
  </nav>`;
}

function deviationRow({
  grade,
  tooth,
  step,
  entries,
  asked,
  found,
  source,
}: GradedDeviation): TemplateResult {
  return html`<tr>
    <th scope="row">${grade}</th>
    <td class="num">${tooth ?? 'case'}</td>
    <td>${step?.replaceAll('-', ' ') ?? ''}</td>
    <td>${asked}</td>
    <td>
      <span class="deviation">${icon('long')}<span>${found}</span></span>
    </td>
    <td class="num">${entries.join(', ')}</td>
    <td><small>${source}</small></td>
  </tr>`;
}

function deviationTable(deviations: readonly GradedDeviation[], cut: boolean): TemplateResult {
  if (deviations.length === 0)
    return html`<p class="chain chain-whole">
      ${icon('right')}<span
        >${cut ? 'What is left of it went as planned.' : 'It went as planned: nothing departs.'}</span
      >
    </p>`;
  return html`<div class="entries" tabindex="0" role="region" aria-label="Departures">
    <table>
      <thead>
        <tr>
          <th scope="col">Grade</th>
          <th scope="col">Tooth</th>
          <th scope="col">Step</th>
          <th scope="col">The plan asked</th>
          <th scope="col">The record shows</th>
          <th scope="col">Entries</th>
          <th scope="col">Source</th>
        </tr>
      </thead>
      <tbody>
        ${deviations.map(deviationRow)}
      </tbody>
    </table>
  </div>`;
}

function recordSection(review: ReviewState, view: ReviewedView, actions: Actions): TemplateResult {
  const { record, sealed, seatings } = view;
  const { cost, fitness } = record.alignment;
  return html`<section class="record">
      <h2>${record.reference}</h2>
      <p>
        ${record.invented ? html`<span class="chip">Invented demo</span>` : nothing}
        ${
          record.cutAfter === undefined
            ? nothing
            : html`<strong
                >Incomplete: its file was cut off after entry ${record.cutAfter}. What came after is
                not known, and only what is left is judged.</strong
              >`
        }
        Opened ${dayOf(record.opened, offsetOf(record.opened))};
        ${record.closed ? 'closed' : 'not closed'},
        ${sealed ? 'its signature is good' : 'not signed: that its end was cut off would not show'};
        ${count(record.entries, 'entry', 'entries')}.
        ${
          cost === 0
            ? 'Every step is where the plan allows it.'
            : `${count(cost, 'step is', 'steps are')} missing, extra or out of place against the plan (fitness ${fitness === 1 ? '1' : Math.min(0.99, fitness).toFixed(2)}).`
        }
      </p>
      ${deviationTable(record.deviations, record.cutAfter !== undefined)}
      ${seatings.map(({ tooth, bars }) => seatingPicture(bars, `Seating of ${tooth}`))}
      ${guardBox(view)}
    </section>
    ${findingsForm(review, view, actions)}`;
}

const CAME = {
  refused: 'refused then too',
  forced: 'refused then too, and overridden',
  'let through': 'let through then',
} as const;

/** What today's machine would have refused; of what follows from one another, the first for each unit. */
function guardBox({ guard, record }: ReviewedView): TemplateResult {
  const { guarded, otherwise } = guard;
  const firsts = guarded.filter(
    (one, i) =>
      one.then !== 'let through' ||
      !guarded.slice(0, i).some((each) => each.then === one.then && each.tooth === one.tooth),
  );
  const rest = guarded.length - firsts.length;
  return html`<details ?open=${firsts.some(({ then }) => then === 'let through')}>
    <summary>
      Would the guard have caught it?
      ${firsts.length === 0 ? 'It would have refused nothing.' : `Refused: ${firsts.length}`}
    </summary>
    <p class="note">
      Every command of the record was given to today’s machine, in its turn.
      ${rest > 0 ? `${count(rest, 'more refusal follows', 'more refusals follow')} from these.` : ''}
      ${otherwise.length > 0 ? `${count(otherwise.length, 'entry comes', 'entries come')} to something else today without a refusal: ${otherwise.join(', ')}.` : ''}
    </p>
    ${
      firsts.length === 0
        ? nothing
        : html`<ul class="plain-list">
            ${firsts.map(
              ({ entry, tooth, step, refusal, then }) =>
                html`<li>
                  Entry
                  ${entry}${tooth === null || record.units.length === 1 ? '' : `, tooth ${tooth}`}${step === null ? '' : `, ${step.replaceAll('-', ' ')}`}:
                  ${refusal.replaceAll('-', ' ')} (${CAME[then]})
                </li>`,
            )}
          </ul>`
    }
  </details>`;
}

/** The review page. */
export function reviewPage(state: AppState, actions: Actions): TemplateResult {
  const { review, desk, locked } = state;
  return sheet(
    state,
    actions,
    'Review',
    html`<div class="review">
      ${sources(review, desk.cases.length, actions)}
      ${locked?.purpose === 'review' ? lockedFileBox(locked, actions) : nothing}
      ${review.rows.length > 1 ? recordList(review, actions) : nothing}
      ${review.view === null ? nothing : recordSection(review, review.view, actions)}
      ${review.pattern === null ? nothing : patternSection(review.pattern)}
    </div>`,
  );
}
