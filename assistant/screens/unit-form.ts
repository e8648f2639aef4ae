/** The facts of one unit, as a form. */
import { html, nothing, type TemplateResult } from 'lit';
import { TEETH, UNIT_KINDS } from '../../machines/contract/index.ts';
import { palmerOf, toothName, universalOf } from '../../machines/form/index.ts';
import { kindTitle } from '../../machines/plan/index.ts';
import { bridgeForm } from './bridge-form.ts';
import { isBridge, isPrepared, type UnitDraft } from './draft-unit.ts';
import { choiceField, textField, tickField } from './field.ts';
import type { FieldProblem } from './problem.ts';
import { press } from './press.ts';
import { MATERIAL_WORDS, SUBSTRATE_WORDS } from './words.ts';

interface UnitForm {
  readonly unit: UnitDraft;
  readonly at: number;
  readonly problems: readonly FieldProblem[];
  /** Labels of the cements on the shelf. */
  readonly cements: readonly string[];
  readonly set: (unit: UnitDraft) => void;
  /** Null for the only unit of a case. */
  readonly remove: (() => void) | null;
}

const TOOTH_CHOICES = TEETH.map(
  (tooth) =>
    [
      tooth,
      `${tooth}  ${toothName(tooth)} (Universal ${universalOf(tooth) ?? ''}, ${palmerOf(tooth) ?? ''})`,
    ] as const,
);

const KIND_CHOICES = UNIT_KINDS.map((kind) => [kind, kindTitle(kind)] as const);

/** Where a unit is measured. */
const THICKNESS: Readonly<Record<string, string>> = {
  veneer: 'Face',
  inlay: 'Depth and isthmus',
  onlay: 'Over the cusp',
  'resin-bonded-bridge': 'Wing',
};

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
  const tick = (
    key: 'fitPaste' | 'tryInPaste' | 'groove' | 'darkShade',
    label: string,
  ): TemplateResult =>
    tickField(
      {
        path: path(key === 'groove' ? 'prep.groove' : key),
        label,
        value: unit[key],
        set: (value) => set({ ...unit, [key]: value }),
      },
      problems,
    );
  const title = unit.tooth === '' ? `Unit ${at + 1}` : `${unit.tooth}: ${toothName(unit.tooth)}`;
  return html`<fieldset class="unit-form">
    <legend>${title}</legend>
    <div class="fields">
      ${choice('tooth', 'Tooth (ISO 3950)', TOOTH_CHOICES, { none: 'Choose the tooth' })}
      ${choice('material', 'Material', Object.entries(MATERIAL_WORDS), { none: 'Choose the material' })}
      ${choice('substrate', 'Bonded to', Object.entries(SUBSTRATE_WORDS), { none: 'Choose what it sits on' })}
      ${choice('kind', 'Kind of unit', KIND_CHOICES)}
    </div>
    <div class="fields fields-numbers">
      ${
        isPrepared(unit.kind)
          ? html`${measure('heightMm', 'prep.heightMm', 'Prep height', 'mm', 'Margin to top')}
            ${measure('convergenceDeg', 'prep.convergenceDeg', 'Convergence', '°', 'Both walls together')}
            ${measure('widthMm', 'prep.widthMm', 'Prep width', 'mm', 'At the margin, cheek to tongue')}`
          : nothing
      }
      ${measure('thicknessMm', 'thicknessMm', 'Thickness', 'mm', THICKNESS[unit.kind] ?? 'Biting surface')}
      ${
        unit.kind === 'implant-crown'
          ? html`${measure('torqueNcm', 'abutment.torqueNcm', 'Screw torque', 'Ncm', 'As its instructions say')}
            ${measure('marginBelowGumMm', 'abutment.marginBelowGumMm', 'Margin below gum', 'mm', '1 mm at most')}`
          : nothing
      }
    </div>
    ${isBridge(unit.kind) ? bridgeForm({ unit, at, problems, set }) : nothing}
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
      ${choice('bonding', 'Adhesive on the tooth', [
        ['', 'As usual'],
        ['etch-and-rinse', 'Etch and rinse'],
        ['selective-enamel', 'Selective enamel etch'],
        ['self-etch', 'Self-etch'],
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
      ${tick('darkShade', 'Shade A3.5 or darker')}
      ${isPrepared(unit.kind) ? tick('groove', 'Proximal groove or box') : nothing}
    </div>
    <details class="rare">
      <summary>What was done to the tooth before</summary>
      <div class="fields">
        ${choice('astringent', 'Astringent', [
          ['', 'None'],
          ['aluminium-chloride', 'Aluminium chloride'],
          ['ferric-sulfate', 'Ferric sulfate'],
        ])}
        ${choice('desensitiser', 'Desensitiser', [
          ['', 'None'],
          ['glutaraldehyde', 'Glutaraldehyde'],
          ['chlorhexidine', 'Chlorhexidine'],
          ['oxalate', 'Oxalate'],
          ['fluoride-varnish', 'Fluoride varnish'],
        ])}
        ${measure('bleachedDaysAgo', 'bleachedDaysAgo', 'Bleached', 'days ago', 'Blank: not bleached')}
        ${textField(
          {
            path: path('bleachedReason'),
            label: 'Bonded within a week all the same: why',
            hint: 'Leave blank: within a week of bleaching it is refused.',
            value: unit.bleachedReason,
            set: (value) => set({ ...unit, bleachedReason: value }),
          },
          problems,
        )}
      </div>
    </details>
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
    <details class="rare" ?open=${unit.belowMinimumReason !== ''}>
      <summary>Seated though thinner, or its connector smaller, than the material needs</summary>
      ${textField(
        {
          path: path('belowMinimumReason'),
          label: 'Why',
          hint: 'Leave blank: below the minimum it is refused. What is written here stays in the record.',
          value: unit.belowMinimumReason,
          set: (value) => set({ ...unit, belowMinimumReason: value }),
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
