/** Cases kept in this browser: to take up again, to look at, to export. */
import { html, nothing, type TemplateResult } from 'lit';
import type { CaseSummary } from '../store/store.ts';
import { fileField } from './field.ts';
import { count, dayOf, timeOfDay } from './format.ts';
import { icon } from './icons.ts';
import type { Actions, DeskState, RefusedFile } from './model.ts';
import { press } from './press.ts';
import { DELETION_WORDS } from './record-asking.ts';

type Content = TemplateResult | typeof nothing;

const zone = (iso: string): number => -new Date(iso).getTimezoneOffset();

const when = (iso: string): string =>
  `${dayOf(iso, zone(iso))} ${timeOfDay(iso, zone(iso)).slice(0, 5)}`;

function caseRow(row: CaseSummary, actions: Actions): TemplateResult {
  return html`<li class="case-row">
    <p>
      <strong>${row.reference}</strong>
      ${row.invented ? html`<span class="chip">Invented demo</span>` : nothing}
      <span>${row.teeth.join(', ')}</span>
      ${
        row.cutAfter === undefined
          ? nothing
          : html`<span class="chip">Incomplete: cut off after entry ${row.cutAfter}</span>`
      }
      <small>opened ${when(row.opened)}, ${count(row.entries, 'entry', 'entries')}</small>
    </p>
    <div class="row-acts">
      ${
        row.closed || row.cutAfter !== undefined
          ? nothing
          : html`<button
              type="button"
              class="act act-main"
              aria-label=${`Go on with ${row.reference}`}
              @click=${press(() => actions.resumeCase(row.caseId))}
            >
              Go on
            </button>`
      }
      <button
        type="button"
        class="act"
        aria-label=${`Show the record of ${row.reference}`}
        @click=${press(() => actions.showRecord(row.caseId))}
      >
        Record
      </button>
      <button
        type="button"
        class="act"
        aria-label=${`Export the record of ${row.reference}`}
        @click=${press(() => actions.exportRecord(row.caseId))}
      >
        Export
      </button>
    </div>
  </li>`;
}

/** A file that was not taken in, and where it goes wrong. */
export function refusedFileBox(file: RefusedFile, actions: Actions): TemplateResult {
  return html`<div class="refused-file" role="alert">
    ${icon('no')}
    <p>
      <strong
        >${file.name} was not taken
        in${file.entry === null ? '' : `: entry ${file.entry} does not hold`}.</strong
      >
      ${file.reason}
      ${
        file.cutAfter === null
          ? nothing
          : html`Its first ${count(file.cutAfter, 'entry is', 'entries are')} whole and can be kept
            as an incomplete record. Look for the whole file first.`
      }
    </p>
    ${
      file.cutAfter === null
        ? nothing
        : html`<button type="button" class="act" @click=${press(() => actions.keepCutFile())}>
            Keep the first ${count(file.cutAfter, 'entry', 'entries')}
          </button>`
    }
    <button type="button" class="act" @click=${press(() => actions.dismissRefusedFile())}>
      Understood
    </button>
  </div>`;
}

function list(title: string, rows: readonly TemplateResult[]): Content {
  if (rows.length === 0) return nothing;
  return html`<h3>${title}</h3>
    <ul>
      ${rows}
    </ul>`;
}

/** Records that need not be kept any longer: to be looked at, and deleted one by one or not. */
function pastKeeping({ cases, keeping }: DeskState, actions: Actions): Content {
  const rows = cases.filter(({ caseId }) => keeping.past.includes(caseId));
  if (keeping.years === null || rows.length === 0) return nothing;
  return html`<details class="rare">
    <summary>
      ${count(rows.length, 'record is', 'records are')} kept longer than
      ${count(keeping.years, 'year', 'years')}
    </summary>
    <p class="note">By your own setting. Deleting is asked on the page of each record.</p>
    <ul>
      ${rows.map((row) => caseRow(row, actions))}
    </ul>
  </details>`;
}

/** What was deleted in this browser, and whether the list of it holds. */
function deletions({ keeping: { deletions: rows, fault } }: DeskState, actions: Actions): Content {
  if (rows.length === 0 && fault === null) return nothing;
  return html`<details class="rare">
    <summary>${count(rows.length, 'deletion', 'deletions')}</summary>
    <div class="ledger">
      ${
        fault === null
          ? html`<p class="chain chain-whole">
              ${icon('right')}<span>The list of deletions is whole and signed.</span>
            </p>`
          : html`<p class="chain chain-broken" role="alert">
              ${icon('long')}<span>The list of deletions does not hold. ${fault}</span>
            </p>`
      }
      <p class="note">
        Keep a copy elsewhere: that the end of the list was cut off shows only beside a copy.
      </p>
      <ul>
        ${rows.map(
          ({ n, wall, reason, entries }) =>
            html`<li>
              ${n}: ${when(wall)}, ${count(entries, 'entry', 'entries')}. ${DELETION_WORDS[reason]}.
            </li>`,
        )}
      </ul>
      <div class="row-acts">
        <button type="button" class="act" @click=${press(() => actions.exportDeletions())}>
          Export the list of deletions
        </button>
      </div>
    </div>
  </details>`;
}

/** Unfinished cases first, then prepared ones, then closed records, and the way in for a record file. */
export function caseLists(desk: DeskState, actions: Actions): TemplateResult {
  const rows = (closed: boolean): readonly TemplateResult[] =>
    desk.cases.filter((row) => row.closed === closed).map((row) => caseRow(row, actions));
  const prepared = desk.prepared.map(
    (row) =>
      html`<li class="case-row">
        <p><strong>${row.reference}</strong> <span>${row.teeth.join(', ')}</span></p>
        <div class="row-acts">
          <button
            type="button"
            class="act"
            aria-label=${`Load ${row.reference}`}
            @click=${press(() => actions.loadPrepared(row.reference))}
          >
            Load
          </button>
          <button
            type="button"
            class="act"
            aria-label=${`Drop ${row.reference}`}
            @click=${press(() => actions.dropPrepared(row.reference))}
          >
            Drop
          </button>
        </div>
      </li>`,
  );
  const unfinished = rows(false);
  const closed = rows(true);
  return html`${
      unfinished.length === 0
        ? nothing
        : html`<h2>Unfinished</h2>
            <ul>
              ${unfinished}
            </ul>`
    }
    <details class="rare">
      <summary>
        Kept in this browser: ${prepared.length} prepared,
        ${count(closed.length, 'closed record', 'closed records')}
      </summary>
      ${list('Prepared', prepared)} ${list('Closed records', closed)}
      ${fileField(
        'import-record',
        'Import a record file',
        '.jsonl,.ndjson,.jwe,application/x-ndjson,application/jose',
        (file) => actions.importRecord(file),
      )}
    </details>
    ${pastKeeping(desk, actions)} ${deletions(desk, actions)}`;
}
