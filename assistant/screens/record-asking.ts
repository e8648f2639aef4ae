/** What is asked before a record goes out under a passphrase, or goes for good. */
import { html, type TemplateResult } from 'lit';
import type { DeletionReason } from '../../machines/record/index.ts';
import { count, dayOf } from './format.ts';
import type { Actions, RecordState } from './model.ts';
import { problemLine, sent } from './passphrase-form.ts';
import { press } from './press.ts';

/** Why a record is deleted, as people say it. */
export const DELETION_WORDS = {
  'retention-over': 'It need not be kept any longer',
  'asked-for': 'The patient asked for it, and the law allows it',
  'made-in-error': 'It was opened in error',
  demo: 'It is a demonstration',
} as const satisfies Readonly<Record<DeletionReason, string>>;

const isReason = (value: string): value is DeletionReason => Object.hasOwn(DELETION_WORDS, value);

const leave = (actions: Actions): TemplateResult =>
  html`<button type="button" class="act" @click=${press(() => actions.askRecord(null))}>
    Leave it
  </button>`;

function passphrase({ problem }: RecordState, actions: Actions): TemplateResult {
  return html`<form
    class="asking"
    aria-label="Export under a passphrase"
    @submit=${sent((value) =>
      actions.exportSealed(value('passphrase') === value('again') ? value('passphrase') : ''),
    )}
  >
    <p>
      Whoever has the passphrase can read the file; without it nobody can, and it cannot be got
      back. Give it to the other side by another way than the file.
    </p>
    <div class="field">
      <label for="passphrase">Passphrase, 12 characters or more</label>
      <input
        id="passphrase"
        name="passphrase"
        type="password"
        autocomplete="new-password"
        minlength="12"
        required
      />
    </div>
    <div class="field">
      <label for="passphrase-again">The same once more</label>
      <input
        id="passphrase-again"
        name="again"
        type="password"
        autocomplete="new-password"
        required
      />
    </div>
    ${problemLine(problem)}
    <div class="row-acts">
      <button type="submit" class="act act-main">Export encrypted</button>
      ${leave(actions)}
    </div>
  </form>`;
}

function deletion(record: RecordState, actions: Actions): TemplateResult {
  const { header, entries, closing, keptUntil, problem } = record;
  const day = dayOf(header.opened, -new Date(header.opened).getTimezoneOffset());
  return html`<form
    class="asking asking-grave"
    aria-label="Delete this record"
    @submit=${sent((value) => {
      const reason = value('reason');
      if (isReason(reason)) actions.deleteRecord(value('reference'), reason);
    })}
  >
    <p>
      <strong>This deletes the record of ${header.case.reference} for good:</strong>
      opened ${day}, ${header.plan.units.map(({ tooth }) => `tooth ${tooth}`).join(', ')},
      ${count(entries.length, 'entry', 'entries')}, ${closing === null ? 'not closed' : 'closed'}.
      ${
        keptUntil === null
          ? 'No years of keeping are set.'
          : `By your setting it has to be kept until ${keptUntil}.`
      }
      Export it first if anybody could still ask for it. What stays is that a record was here, how
      long it was, and by which digest it ended.
    </p>
    <div class="field">
      <label for="deletion-reason">Why</label>
      <select id="deletion-reason" name="reason" required>
        <option value="">Choose</option>
        ${Object.entries(DELETION_WORDS).map(
          ([reason, words]) => html`<option value=${reason}>${words}</option>`,
        )}
      </select>
    </div>
    <div class="field">
      <label for="deletion-reference">Type the case reference</label>
      <input id="deletion-reference" name="reference" type="text" autocomplete="off" required />
    </div>
    ${problemLine(problem)}
    <div class="row-acts">
      <button type="submit" class="act act-stop">Delete for good</button>
      ${leave(actions)}
    </div>
  </form>`;
}

/** The question that stands, if one does. */
export function recordAsking(record: RecordState, actions: Actions): TemplateResult {
  if (record.asking === 'passphrase') return passphrase(record, actions);
  if (record.asking === 'deletion') return deletion(record, actions);
  return html``;
}
