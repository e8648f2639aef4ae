/** What only the printed page of a record has: its plan, and the seal by which it can be checked. */
import { html, nothing, type TemplateResult } from 'lit';
import type { PlanStep, UnitPlan } from '../../machines/contract/index.ts';
import type { EntryWords } from './entry-words.ts';
import { windowWords } from './format.ts';
import type { RecordState } from './model.ts';

function stepRow({ title, todo, who, dwell }: PlanStep): TemplateResult {
  return html`<tr>
    <th scope="row">${title}</th>
    <td>${todo}</td>
    <td>${who}</td>
    <td>${dwell === null ? '' : windowWords(dwell.minS, dwell.targetS, dwell.maxS)}</td>
  </tr>`;
}

function unitTable({ tooth, toothName, materialName, cement, steps }: UnitPlan): TemplateResult {
  return html`<h3>${tooth}, ${toothName}: ${materialName}, ${cement.label}</h3>
    <table>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col">To do</th>
          <th scope="col">Who</th>
          <th scope="col">Window</th>
        </tr>
      </thead>
      <tbody>
        ${steps.map(stepRow)}
      </tbody>
    </table>`;
}

/** The plan the case was opened with. */
export function printedPlan({ header }: RecordState): TemplateResult {
  return html`<section class="print-only" aria-label="Plan">
    <h2>Plan</h2>
    ${header.plan.units.map(unitTable)}
  </section>`;
}

/** Where the plan was departed from, by the numbers of the entries. */
export function printedDepartures(rows: readonly EntryWords[]): TemplateResult {
  const departed = rows.filter(({ deviation }) => deviation !== '');
  return html`<section class="print-only" aria-label="Departures from the plan">
    <h2>Departures from the plan</h2>
    ${departed.length === 0 ? html`<p>None.</p>` : nothing}
    ${departed.map(
      ({ n, time, tooth, deviation }) =>
        html`<p>
          Entry ${n}, ${time}${tooth === '' ? '' : `, tooth ${tooth}`}:
          ${deviation.replace(/\.*$/u, '.')}
        </p>`,
    )}
  </section>`;
}

/** By what a stranger can tell that this page is of that file. */
export function printedSeal(record: RecordState): TemplateResult {
  const { id, header, entries, closing, head, fingerprint } = record;
  return html`<section class="print-only printed-seal" aria-label="Seal">
    <h2>Seal</h2>
    <p>
      Kept by ${header.software}; the file has ${entries.length} entries and can be checked with a
      hash tool and openssl: see docs/verify.md.
    </p>
    <p>Record (SHA-256 of the header): <span class="fingerprint">${id}</span></p>
    <p>Plan (SHA-256): <span class="fingerprint">${header.planDigest}</span></p>
    <p>Last entry (SHA-256): <span class="fingerprint">${head}</span></p>
    ${
      closing === null
        ? html`<p>Not closed, so not signed.</p>`
        : html`<p>Closed ${closing.wall}, ECDSA P-256 over the last line:</p>
            <p class="fingerprint">${closing.signature}</p>`
    }
    ${
      fingerprint === null
        ? nothing
        : html`<p>
            Key (SHA-256 of its DER form): <span class="fingerprint">${fingerprint}</span>
          </p>`
    }
  </section>`;
}
