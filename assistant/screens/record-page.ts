/** The record of a case: who said what when, what came of it, and whether the account still holds. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Entry, Header } from '../../machines/contract/index.ts';
import { entryWords, type EntryWords, titlesOf } from './entry-words.ts';
import { count, dayOf, timeOfDay } from './format.ts';
import { sheet } from './frame.ts';
import { icon } from './icons.ts';
import type { Actions, AppState, ChainView, RecordState } from './model.ts';
import { press } from './press.ts';
import { recordAsking } from './record-asking.ts';
import { printedDepartures, printedPlan, printedSeal } from './record-print.ts';

const offsetOf = (iso: string): number => -new Date(iso).getTimezoneOffset();

/** How the chain stands, in words. */
export function chainBox(chain: ChainView, closed: boolean): TemplateResult {
  if (chain.kind === 'checking') return html`<p class="chain">Checking the chain…</p>`;
  if (chain.kind === 'broken') {
    return html`<p class="chain chain-broken" role="alert">
      ${icon('long')}<span
        ><strong
          >${chain.entry === null ? 'The record does not hold.' : `Entry ${chain.entry} does not hold.`}</strong
        >
        ${chain.reason} What follows cannot be relied on.</span
      >
    </p>`;
  }
  const seal = chain.signed
    ? 'Its signature is good.'
    : closed
      ? 'Its signature was not checked.'
      : 'Nothing is signed, since the case is not closed.';
  return html`<p class="chain chain-whole">
    ${icon('right')}<span><strong>The chain is whole.</strong> ${seal}</span>
  </p>`;
}

/** The years of keeping, and records of the same reference that went before. */
function keepingLines({ keptUntil, deletedBefore }: RecordState): TemplateResult {
  return html`${keptUntil === null ? nothing : html`<p class="note">Has to be kept until ${keptUntil} by the practice’s setting.</p>`}
  ${deletedBefore.map(
    ({ n, wall, entries }) =>
      html`<p class="chain chain-warn">
        ${icon('long')}<span
          >Another record with this case reference, of ${count(entries, 'entry', 'entries')}, was
          deleted here on ${dayOf(wall, offsetOf(wall))} (deletion ${n}).</span
        >
      </p>`,
  )}`;
}

/** That what came after was lost, for what is left of a file. */
function cutLine({ cutAfter }: RecordState): TemplateResult | typeof nothing {
  if (cutAfter === null) return nothing;
  return html`<p class="chain chain-warn" role="status">
    ${icon('long')}<span
      ><strong>Incomplete: its file was cut off after entry ${cutAfter}.</strong> What was done
      after that is not known, and entry ${cutAfter} itself could have been changed. Importing the
      whole file adds the rest.</span
    >
  </p>`;
}

function entryRow(row: EntryWords): TemplateResult {
  return html`<tr class="entry-${row.kind} ${row.deviation === '' ? '' : 'entry-deviation'}">
    <th scope="row">${row.n}</th>
    <td class="num">${row.time}<br /><small>+${row.since}</small></td>
    <td>${row.who}<br /><small>${row.via}</small></td>
    <td>${row.heard}</td>
    <td class="num">${row.tooth}</td>
    <td>${row.command}</td>
    <td>
      ${row.outcome}
      ${
        row.deviation === ''
          ? nothing
          : html`<span class="deviation">${icon('long')}<span>${row.deviation}</span></span>`
      }
    </td>
  </tr>`;
}

/** A record's entries in plain words. */
export function entryTable(rows: readonly EntryWords[]): TemplateResult {
  return html`<div class="entries" tabindex="0" role="region" aria-label="Entries">
    <table>
      <thead>
        <tr>
          <th scope="col">No.</th>
          <th scope="col">Time</th>
          <th scope="col">Who, how</th>
          <th scope="col">Heard</th>
          <th scope="col">Tooth</th>
          <th scope="col">Command</th>
          <th scope="col">What came of it</th>
        </tr>
      </thead>
      <tbody>
        ${rows.map(entryRow)}
      </tbody>
    </table>
  </div>`;
}

/** The rows of a record's table. */
export function rowsOf({ plan }: Header, entries: readonly Entry[]): readonly EntryWords[] {
  const title = titlesOf(plan);
  return entries.map((entry) => entryWords(entry, title, offsetOf(entry.stamp.wall)));
}

/** The record page, for a record that was fetched. */
export function recordPage(state: AppState, record: RecordState, actions: Actions): TemplateResult {
  const { header, entries, closing, chain } = record;
  const rows = rowsOf(header, entries);
  const deviations = rows.filter(({ deviation }) => deviation !== '').length;
  const refusals = rows.filter(({ kind }) => kind === 'refused').length;
  const at = offsetOf(header.opened);
  return sheet(
    state,
    actions,
    `Record of ${header.case.reference}`,
    html`<div class="record">
      <div class="record-top">
        <p>
          ${header.invented ? html`<span class="chip">Invented demo</span>` : nothing} Opened
          ${dayOf(header.opened, at)} ${timeOfDay(header.opened, at)};
          ${closing === null ? 'not closed' : `closed ${timeOfDay(closing.wall, offsetOf(closing.wall))}`};
          ${header.plan.units.map((unit) => `${unit.tooth} ${unit.materialName}`).join(', ')}.
        </p>
        <p>
          ${count(entries.length, 'entry', 'entries')},
          <strong>${count(deviations, 'deviation', 'deviations')}</strong>,
          ${count(refusals, 'refusal', 'refusals')}.
        </p>
        ${chainBox(chain, closing !== null)} ${cutLine(record)} ${keepingLines(record)}
        <div class="row-acts">
          <button type="button" class="act" @click=${press(() => actions.exportRecord(record.id))}>
            Export the record file
          </button>
          <button type="button" class="act" @click=${press(() => actions.askRecord('passphrase'))}>
            Export under a passphrase
          </button>
          <button type="button" class="act" @click=${press(() => actions.reviewRecord(record.id))}>
            Review
          </button>
          <button type="button" class="act" @click=${press(() => actions.print())}>Print</button>
          <button type="button" class="act" @click=${press(() => actions.askRecord('deletion'))}>
            Delete
          </button>
        </div>
        ${recordAsking(record, actions)}
      </div>
      ${printedDepartures(rows)} ${printedPlan(record)}
      <h2 class="print-only">Entries</h2>
      ${entryTable(rows)} ${printedSeal(record)}
    </div>`,
  );
}
