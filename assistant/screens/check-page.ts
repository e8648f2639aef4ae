/** Verifies a record file that somebody chose, without taking it in. */
import { html, nothing, type TemplateResult } from 'lit';
import { fileField } from './field.ts';
import { count } from './format.ts';
import { sheet } from './frame.ts';
import type { Actions, AppState, CheckedFile } from './model.ts';
import { lockedFileBox } from './passphrase-form.ts';
import { chainBox, entryTable, rowsOf } from './record-page.ts';

function sealWords({ seal, fingerprint, own }: CheckedFile): TemplateResult {
  if (seal === null || fingerprint === null)
    return html`<p>
      Nothing is signed: that its end was cut off, or its last entry changed, could not show.
    </p>`;
  const what = seal === 'closing' ? 'The case is closed' : 'The case was still going on';
  return html`<p>
      ${what}, and the file is signed by
      ${own ? 'this browser’s own key' : 'a key that is not this browser’s'}. Whose key it is, only
      its practice can say: compare the fingerprint with one it gave you beforehand.
    </p>
    <p class="fingerprint">${fingerprint}</p>`;
}

function verdict(file: CheckedFile): TemplateResult {
  const { name, header, entries, chain, line, seal } = file;
  const broken = chain.kind === 'broken';
  return html`<div class="record-top" role="status">
      <h2>${name}</h2>
      ${chainBox(chain, seal !== null)}
      ${
        broken
          ? html`<p>
              ${line === null ? '' : `The fault is in line ${line} of the file. `}Before it,
              ${count(entries.length, 'entry is', 'entries are')} whole.
            </p>`
          : html`<p>${count(entries.length, 'entry', 'entries')}.</p>
              ${sealWords(file)}`
      }
      ${
        header === null
          ? nothing
          : html`<p>
              ${header.invented ? html`<span class="chip">Invented demo</span>` : nothing}
              ${header.case.reference}, kept by ${header.software}:
              ${header.plan.units.map((unit) => `${unit.tooth} ${unit.materialName}`).join(', ')}.
            </p>`
      }
    </div>
    ${header === null || entries.length === 0 ? nothing : entryTable(rowsOf(header, entries))}`;
}

/** The page on which a file is checked. */
export function checkPage(state: AppState, actions: Actions): TemplateResult {
  const { checked, locked } = state;
  return sheet(
    state,
    actions,
    'Check a file',
    html`<div class="record">
      <p class="note">
        The file is read on this machine and goes nowhere. That it holds shows that nobody changed
        it since; it does not show that what was recorded was done.
      </p>
      ${fileField(
        'check-file',
        'Choose a record file',
        '.jsonl,.ndjson,.jwe,application/x-ndjson,application/jose',
        (file) => actions.checkFile(file),
      )}
      ${locked?.purpose === 'check' ? lockedFileBox(locked, actions) : nothing}
      ${checked === null ? nothing : verdict(checked)}
    </div>`,
  );
}
