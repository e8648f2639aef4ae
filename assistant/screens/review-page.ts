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
import type { ReviewedView, ReviewState } from './review-model.ts';
import { patternSection } from './review-pattern.ts';

const offsetOf = (iso: string): number => -new Date(iso).getTimezoneOffset();

function filesField(actions: Actions): TemplateResult {
  return html`<div class="file">
    <label for="review-files">Choose record files, and a follow-up file if there is one</label>
    <input
      id="review-files"
      type="file"
      multiple
      accept=".jsonl,.ndjson,.jwe,application/x-ndjson,application/jose"
      @change=${(event: Event) => {
        if (!(event.target instanceof HTMLInputElement)) return;
        const files = [...(event.target.files ?? [])];
        event.target.value = '';
        if (files.length > 0) actions.reviewFiles(files);
      }}
    />
  </div>`;
}

function sources(
  { busy, failed, followed, records }: ReviewState,
  kept: number,
  actions: Actions,
): TemplateResult {
  return html`<div class="record-top">
    <p class="note">
      Files are read on this machine and go nowhere. A review says what a record shows and what a
      loss is consistent with; it does not say what caused it.
    </p>
    ${filesField(actions)}
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
        ?disabled=${records.length === 0 && failed.length === 0}
        @click=${press(() => actions.clearReview())}
      >
        Clear
      </button>
    </div>
    <p role="status">
      ${busy ? 'Reading…' : nothing}
      ${followed > 0 ? `Follow-up of ${count(followed, 'restoration', 'restorations')} is known.` : nothing}
    </p>
    ${
      failed.length === 0
        ? nothing
        : html`<ul class="others">
            ${failed.map(({ name, message }) => html`<li>${name}: ${message}</li>`)}
          </ul>`
    }
  </div>`;
}

function recordList({ records, chosen }: ReviewState, actions: Actions): TemplateResult {
  return html`<nav class="reviewed" aria-label="Reviewed records">
    ${records.map(
      ({ record }, i) =>
        html`<button
          type="button"
          class="act"
          aria-current=${i === chosen ? 'true' : nothing}
          @click=${press(() => actions.chooseReviewed(i))}
        >
          ${record.reference}${record.cutAfter === undefined ? '' : ' (incomplete)'},
          ${count(record.deviations.length, 'departure', 'departures')}
        </button>`,
    )}
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

function deviationTable(deviations: readonly GradedDeviation[]): TemplateResult {
  if (deviations.length === 0)
    return html`<p class="chain chain-whole">
      ${icon('right')}<span>It went as planned: nothing departs.</span>
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
        ${record.closed ? 'closed' : 'not closed'}${sealed ? ', its signature is good' : ''};
        ${count(record.entries, 'entry', 'entries')}.
        ${
          cost === 0
            ? 'Every step is where the plan allows it.'
            : `Against the plan ${count(cost, 'move does', 'moves do')} not fit (fitness ${fitness.toFixed(2)}).`
        }
      </p>
      ${deviationTable(record.deviations)}
      ${seatings.map(({ tooth, bars }) => seatingPicture(bars, `Seating of ${tooth}`))}
    </section>
    ${findingsForm(review, view, actions)}`;
}

/** The review page. */
export function reviewPage(state: AppState, actions: Actions): TemplateResult {
  const { review, desk, locked } = state;
  const shown = review.chosen === null ? undefined : review.records[review.chosen];
  return sheet(
    state,
    actions,
    'Review',
    html`<div class="review">
      ${sources(review, desk.cases.length, actions)}
      ${locked?.purpose === 'review' ? lockedFileBox(locked, actions) : nothing}
      ${review.records.length > 1 ? recordList(review, actions) : nothing}
      ${shown === undefined ? nothing : recordSection(review, shown, actions)}
      ${review.pattern === null ? nothing : patternSection(review.pattern)}
    </div>`,
  );
}
