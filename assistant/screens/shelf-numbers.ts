/** Numbers of the practice's own, beside all that there are. */
import { html, type TemplateResult } from 'lit';
import { blankNumber, type NumberDraft, type ShelfDraft } from './draft-shelf.ts';
import type { FieldProblem } from './problem.ts';
import { numberList } from './number-list.ts';
import { press } from './press.ts';
import { fieldsOf } from './shelf-fields.ts';

type Set = (shelf: ShelfDraft) => void;
type Problems = readonly FieldProblem[];

/** Numbers of the trade tables that this practice has otherwise. */
export function shelfNumbers(shelf: ShelfDraft, set: Set, problems: Problems): TemplateResult {
  const put = (list: readonly NumberDraft[]): void => set({ ...shelf, numbers: list });
  return html`<h3>Numbers of your own</h3>
    <p class="note">
      Any number of the tables, by its path: a single value, or minimum, aim and maximum. It
      outranks the built-in one.
    </p>
    ${numberList()}
    ${shelf.numbers.map((own, at) => {
      const text = fieldsOf(
        own,
        `shelf.numbers[${at}]`,
        (changed) => put(shelf.numbers.with(at, changed)),
        problems,
      );
      return html`<div class="shelf-item shelf-held">
        <div class="fields fields-numbers">
          ${text('path', 'path', 'Number')} ${text('value', 'value', 'Value')}
          ${text('min', 'min', 'Minimum')} ${text('target', 'target', 'Aim')}
          ${text('max', 'max', 'Maximum')} ${text('from', 'from', 'From')}
        </div>
        <button
          type="button"
          class="act"
          @click=${press(() => put(shelf.numbers.toSpliced(at, 1)))}
        >
          Remove this number
        </button>
      </div>`;
    })}
    <button type="button" class="act" @click=${press(() => put([...shelf.numbers, blankNumber]))}>
      Add a number
    </button>`;
}
