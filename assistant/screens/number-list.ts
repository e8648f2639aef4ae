/** Every number of the trade tables with its mark and source, as a page shows them. */
import { html, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { SOURCES, tradeNumbers } from '../../machines/trade/index.ts';
import { amountWords, originWords } from './number-words.ts';

const table = (): TemplateResult =>
  html`<table class="numbers">
      <thead>
        <tr>
          <th scope="col">Number</th>
          <th scope="col">Value, or least / aim / most</th>
          <th scope="col">Mark and source</th>
          <th scope="col">Note</th>
        </tr>
      </thead>
      <tbody>
        ${tradeNumbers().marked.map(
          ({ path, number }) =>
            html`<tr>
              <th scope="row">${path}</th>
              <td>${amountWords(number)}</td>
              <td>${originWords(number)}</td>
              <td>${number.note}</td>
            </tr>`,
        )}
      </tbody>
    </table>
    <h4>Sources</h4>
    <ul>
      ${Object.entries(SOURCES).map(
        ([key, { cite, read }]) =>
          html`<li><b>${key}</b>: ${cite}${read ? '' : ' (from memory, or without a source)'}</li>`,
      )}
    </ul>`;

/** Folded up; the tables do not change while the app runs, so they are laid out once. */
export const numberList = (): TemplateResult =>
  html`<details class="rare">
    <summary>Every number, with its mark and source</summary>
    <p class="note">
      Published: read in the paper named. Memory: remembered from it. Common practice and judgement:
      no source. Instructions for use outrank all of them.
    </p>
    <div class="numbers-scroll" role="region" aria-label="Numbers" tabindex="0">
      ${guard([], table)}
    </div>
  </details>`;
