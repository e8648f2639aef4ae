/** A practice's own words: what is said, and which built-in phrase it stands for. */
import { html, nothing, type TemplateResult } from 'lit';
import { MOST_OWN, type OwnPhrase, PHRASES } from '../../prompts/phrases/index.ts';
import { choiceField, textField } from './field.ts';
import type { Actions, SettingsState } from './model.ts';
import type { FieldProblem } from './problem.ts';
import { press } from './press.ts';

/** The first way to say each thing, as the list to choose from. */
const MEANINGS = PHRASES.flatMap(({ texts }) => texts.slice(0, 1))
  .toSorted((one, other) => one.localeCompare(other, 'en'))
  .map((text) => [text, text] as const);

function row(
  own: OwnPhrase,
  at: number,
  problem: string | null,
  put: (changed: OwnPhrase | null) => void,
): TemplateResult {
  const path = `ownPhrases[${at}]`;
  const problems: readonly FieldProblem[] =
    problem === null ? [] : [{ field: `${path}.words`, message: problem.replace(/\.$/u, '') }];
  return html`<div class="own-phrase">
    ${textField(
      {
        path: `${path}.words`,
        label: 'When we say',
        value: own.words,
        set: (words) => put({ ...own, words }),
      },
      problems,
    )}
    ${choiceField(
      {
        path: `${path}.means`,
        label: 'it means',
        choices: MEANINGS,
        none: 'Choose what it means',
        value: own.means,
        set: (means) => put({ ...own, means }),
      },
      [],
    )}
    <button
      type="button"
      class="act"
      aria-label=${`Remove “${own.words}”`}
      @click=${press(() => put(null))}
    >
      Remove
    </button>
  </div>`;
}

/** The list, in the settings. */
export function ownPhrases(settings: SettingsState, actions: Actions): TemplateResult {
  const { ownPhrases: list } = settings.values;
  const edit = (changed: readonly OwnPhrase[]): void =>
    actions.editSettings({ ownPhrases: changed });
  return html`<h2>Your own words</h2>
    <p class="note">
      A phrase of yours can stand for any built-in one. It is heard where that one is. What is
      marked as wrong is not used.
    </p>
    ${list.map((own, at) =>
      row(own, at, settings.ownProblems[at] ?? null, (changed) =>
        edit(changed === null ? list.toSpliced(at, 1) : list.with(at, changed)),
      ),
    )}
    ${
      list.length >= MOST_OWN
        ? nothing
        : html`<button
            type="button"
            class="act"
            @click=${press(() => edit([...list, { words: '', means: '' }]))}
          >
            Add a phrase
          </button>`
    }`;
}
