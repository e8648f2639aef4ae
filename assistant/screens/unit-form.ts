/** The facts of one unit, as a form. */
import { html, nothing, type TemplateResult } from 'lit';
import { TEETH } from '../../machines/contract/index.ts';
import { toothName } from '../../machines/form/index.ts';
import type { UnitDraft } from './draft.ts';
import { choiceField, textField, tickField } from './field.ts';
import type { CaseProblem } from './model.ts';
import { press } from './press.ts';
import { KIND_WORDS, MATERIAL_WORDS, SUBSTRATE_WORDS } from './words.ts';

interface UnitForm {
  readonly unit: UnitDraft;
  readonly at: number;
  readonly problems: readonly CaseProblem[];
  /** Labels of the cements on the shelf. */
  readonly cements: readonly string[];
  readonly set: (unit: UnitDraft) => void;
  /** Null for the only unit of a case. */
  readonly remove: (() => void) | null;
}

const TOOTH_CHOICES = TEETH.map((tooth) => [tooth, `${tooth}  ${toothName(tooth)}`] as const);

/** Keys of a unit that are written as text. */
type TextKey = {
  [K in keyof UnitDraft]: UnitDraft[K] extends string ? K : never;
}[keyof UnitDraft];

/** Form of unit number `at`, counted from 0. */
export function unitForm({ unit, at, problems, cements, set, remove }: UnitForm): TemplateResult {
  const path = (field: string): string => `units[${at}].${field}`;
  const choice = (
    key: TextKey,
    label: string,
    choices: readonly (readonly [string, string])[],
    more: { readonly hint?: string; readonly none?: string } = {},
  ): TemplateResult =>
    choiceField(
      {
        path: path(key),
        label,
        choices,
        value: unit[key],
        set: (value) => set({ ...unit, [key]: value }),
        ...more,
      },
      problems,
    );
  const measure = (
    key: TextKey,
    field: string,
    label: string,
    mark: string,
    hint: string,
  ): TemplateResult =>
    textField(
      {
        path: path(field),
        label,
        unit: mark,
        hint,
        value: unit[key],
        set: (value) => set({ ...unit, [key]: value }),
      },
      problems,
    );
  const tick = (key: 'fitPaste' | 'tryInPaste', label: string): TemplateResult =>
    tickField(
      { path: path(key), label, value: unit[key], set: (value) => set({ ...unit, [key]: value }) },
      problems,
    );
  const title = unit.tooth === '' ? `Unit ${at + 1}` : `${unit.tooth}: ${toothName(unit.tooth)}`;
  return html`<fieldset class="unit-form">
    <legend>${title}</legend>
    <div class="fields">
      ${choice('tooth', 'Tooth (ISO 3950)', TOOTH_CHOICES, { none: 'Choose the tooth' })}
      ${choice('material', 'Material', Object.entries(MATERIAL_WORDS), { none: 'Choose the material' })}
      ${choice('substrate', 'Bonded to', Object.entries(SUBSTRATE_WORDS), { none: 'Choose what it sits on' })}
      ${choice('kind', 'Kind of unit', Object.entries(KIND_WORDS))}
    </div>
    <div class="fields fields-numbers">
      ${measure('heightMm', 'prep.heightMm', 'Prep height', 'mm', 'Margin to top')}
      ${measure('convergenceDeg', 'prep.convergenceDeg', 'Convergence', '°', 'Both walls together')}
      ${measure('widthMm', 'prep.widthMm', 'Prep width', 'mm', 'At the margin, cheek to tongue')}
      ${measure('thicknessMm', 'thicknessMm', 'Thickness', 'mm', 'Biting surface')}
    </div>
    <div class="fields">
      ${choice('intaglioFromLab', 'Inside, as it came from the lab', [
        ['untreated', 'Untreated'],
        ['abraded', 'Air-abraded'],
        ['etched', 'Etched'],
      ])}
      ${choice('translucency', 'Translucency', [
        ['low', 'Low'],
        ['high', 'High'],
      ])}
      ${choice('provisionalCement', 'Provisional cement', [
        ['none', 'No provisional'],
        ['non-eugenol', 'Without eugenol'],
        ['eugenol', 'With eugenol'],
      ])}
      ${choice('isolation', 'Isolation', [
        ['dam', 'Dam'],
        ['rolls', 'Cotton rolls'],
      ])}
      ${choice(
        'cement',
        'Cement',
        cements.map((label) => [label, label] as const),
        { none: 'Choose a cement of the shelf' },
      )}
    </div>
    <div class="fields">
      ${tick('fitPaste', 'Silicone fit check planned')} ${tick('tryInPaste', 'Shade paste planned')}
    </div>
    <details class="rare">
      <summary>Someone says the tried-in crown counts as clean</summary>
      ${textField(
        {
          path: path('countsCleanReason'),
          label: 'Why',
          hint: 'Leave blank: a crown tried in counts as contaminated. What is written here stays in the record.',
          value: unit.countsCleanReason,
          set: (value) => set({ ...unit, countsCleanReason: value }),
        },
        problems,
      )}
    </details>
    ${
      remove === null
        ? nothing
        : html`<button type="button" class="act" @click=${press(remove)}>Remove this unit</button>`
    }
  </fieldset>`;
}
