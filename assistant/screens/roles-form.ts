/** What the assistant does here: a setting, because local rules decide. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Task } from '../../machines/contract/index.ts';
import type { CaseDraft } from './draft.ts';
import { tickField } from './field.ts';

const TASK_WORDS = {
  condition: 'Cleans and conditions the inside',
  cement: 'Helps seat and hold',
  clear: 'Helps take excess off',
  cure: 'Cures with the light',
} as const satisfies Readonly<Record<Task, string>>;

/** What an assistant does unless told otherwise. */
const USUAL: readonly string[] = ['condition', 'clear', 'cure'];

/** Ticks for every task; nothing for a dentist alone. */
export function rolesForm(
  draft: CaseDraft,
  set: (draft: CaseDraft) => void,
): TemplateResult | typeof nothing {
  if (draft.team === 'solo') return nothing;
  const may = draft.assistantMay ?? USUAL;
  return html`<details class="rare">
    <summary>What the assistant does</summary>
    <p class="note">
      Who may cement, remove cement and cure differs by place: local rules decide. The licensed
      dentist owns every decision.
    </p>
    <div class="fields">
      ${Object.entries(TASK_WORDS).map(([task, label]) =>
        tickField(
          {
            path: `assistantMay.${task}`,
            label,
            value: may.includes(task),
            set: (value) =>
              set({
                ...draft,
                assistantMay: value ? [...may, task] : may.filter((one) => one !== task),
              }),
          },
          [],
        ),
      )}
    </div>
  </details>`;
}
