/** The practice's shelf, as a form. */
import { html, nothing, type TemplateResult } from 'lit';
import { codeHint, withCode } from './barcode.ts';
import {
  blankCement,
  type CementDraft,
  type ItemKey,
  ITEMS,
  type ShelfDraft,
  TOUCHING,
} from './draft-shelf.ts';
import { choiceField, textField, tickField } from './field.ts';
import type { FieldProblem } from './problem.ts';
import { press } from './press.ts';
import { fieldsOf } from './shelf-fields.ts';
import { shelfNumbers } from './shelf-numbers.ts';
import { CEMENT_WORDS } from './words.ts';

const ITEM_WORDS = {
  cleaner: 'Alkaline zirconia-suspension cleaner',
  hydrofluoricAcid: 'Hydrofluoric acid',
  phosphoricAcid: 'Phosphoric acid',
  silane: 'Silane',
  phosphatePrimer: '10-MDP primer',
  metalPrimer: 'Metal primer',
  adhesive: 'Universal adhesive',
} as const satisfies Readonly<Record<ItemKey, string>>;

const MAX_CEMENTS = 12;

type Set = (shelf: ShelfDraft) => void;
type Problems = readonly FieldProblem[];

/** Something that is on the shelf or not; what belongs to it is asked only where it is. */
function held(
  path: string,
  label: string,
  value: boolean,
  set: (value: boolean) => void,
  fields: () => TemplateResult,
  problems: Problems,
): TemplateResult {
  return html`<div class="shelf-item ${value ? 'shelf-held' : ''}">
    ${tickField({ path, label, value, set }, problems)} ${value ? fields() : nothing}
  </div>`;
}

/** A barcode, read into lot and expiry as it is scanned. */
function codeField<
  T extends {
    readonly code: string;
    readonly gtin: string;
    readonly lot: string;
    readonly expires: string;
  },
>(draft: T, base: string, on: string, set: (draft: T) => void): TemplateResult {
  return textField(
    {
      path: `${base}.code`,
      label: 'Barcode (GS1)',
      hint: codeHint(draft.code, on),
      value: draft.code,
      set: (code) => set(withCode(draft, code, on)),
    },
    [],
  );
}

/** Only where there is a date to be past. */
function expiredField<T extends { readonly expires: string; readonly expiredReason: string }>(
  draft: T,
  base: string,
  on: string,
  set: (draft: T) => void,
  problems: Problems,
): TemplateResult | typeof nothing {
  const past = draft.expires !== '' && on !== '' && draft.expires < on;
  if (!past && draft.expiredReason === '') return nothing;
  return textField(
    {
      path: `${base}.expiredReason`,
      label: 'Why an expired lot is used',
      hint: 'Leave blank: it is refused. What is written here stays in the record.',
      value: draft.expiredReason,
      set: (expiredReason) => set({ ...draft, expiredReason }),
    },
    problems,
  );
}

const TRI = [
  ['', 'Not known'],
  ['yes', 'Yes'],
  ['no', 'No'],
] as const;

/** What only a primer, the metal primer or the adhesive is asked. */
function primerFields(
  shelf: ShelfDraft,
  key: ItemKey,
  set: Set,
  problems: Problems,
): TemplateResult | typeof nothing {
  const touching = TOUCHING.find((one) => one === key);
  if (touching === undefined) return nothing;
  const { touchCure } = shelf;
  return html`<div class="fields">
    ${tickField(
      {
        path: `shelf.${key}.touchCure`,
        label: 'Speeds the cement on contact',
        value: touchCure.includes(key),
        set: (value) =>
          set({
            ...shelf,
            touchCure: value ? [...touchCure, key] : touchCure.filter((one) => one !== key),
          }),
      },
      problems,
    )}
    ${
      key === 'metalPrimer'
        ? choiceField(
            {
              path: 'shelf.metalPrimer.monomer',
              label: 'Monomer',
              choices: [
                ['both', 'Sulfur and phosphate'],
                ['sulfur', 'Sulfur, for noble alloys'],
                ['phosphate', 'Phosphate or 4-META, for base alloys'],
              ],
              value: shelf.monomer,
              set: (monomer) => set({ ...shelf, monomer }),
            },
            problems,
          )
        : nothing
    }
    ${
      key === 'adhesive'
        ? html`${choiceField(
            {
              path: 'shelf.adhesive.acidic',
              label: 'Acidic, pH about 3 or less',
              choices: TRI,
              value: shelf.acidic,
              set: (acidic) => set({ ...shelf, acidic }),
            },
            problems,
          )}
          ${tickField(
            {
              path: 'shelf.adhesive.activator',
              label: 'Used with its dual-cure activator',
              value: shelf.activator,
              set: (activator) => set({ ...shelf, activator }),
            },
            problems,
          )}`
        : nothing
    }
  </div>`;
}

function itemFields(
  shelf: ShelfDraft,
  key: ItemKey,
  set: Set,
  problems: Problems,
  on: string,
): TemplateResult {
  const put = (item: ShelfDraft[ItemKey]): void => set({ ...shelf, [key]: item });

  const text = fieldsOf(
    shelf[key],
    `shelf.${key}`,
    (item) => set({ ...shelf, [key]: item }),
    problems,
  );
  const own = fieldsOf(shelf, `shelf.${key}`, set, problems);
  return html`<div class="fields fields-bought">
      ${text('label', 'label', 'Your name for it')} ${text('lot', 'lot', 'Lot')}
      ${text('expires', 'expires', 'Expires', { kind: 'date' })}
      ${codeField(shelf[key], `shelf.${key}`, on, put)}
      ${shelf[key].gtin === '' ? nothing : text('gtin', 'gtin', 'Device identifier (UDI)')}
      ${expiredField(shelf[key], `shelf.${key}`, on, put, problems)}
    </div>
    ${primerFields(shelf, key, set, problems)}
    <div class="fields fields-numbers">
      ${key === 'hydrofluoricAcid' ? own('acidPercent', 'percent', 'Strength', { unit: '%' }) : nothing}
      ${text('minS', 'ifu.minS', 'Minimum', { unit: 's' })}
      ${text('targetS', 'ifu.targetS', 'Aim', { unit: 's' })}
      ${text('maxS', 'ifu.maxS', 'Maximum', { unit: 's' })}
    </div>`;
}

function cementForm(
  cement: CementDraft,
  at: number,
  set: (cement: CementDraft) => void,
  remove: (() => void) | null,
  problems: Problems,
  on: string,
): TemplateResult {
  const base = `shelf.cements[${at}]`;
  const text = fieldsOf(cement, base, set, problems);
  return html`<div class="shelf-item shelf-held">
    <div class="fields fields-cement">
      ${text('label', 'label', 'Your name for the cement')}
      ${choiceField(
        {
          path: `${base}.class`,
          label: 'Class',
          choices: Object.entries(CEMENT_WORDS),
          none: 'Choose its class',
          value: cement.class,
          set: (value) => set({ ...cement, class: value }),
        },
        problems,
      )}
      ${text('lot', 'lot', 'Lot')} ${text('expires', 'expires', 'Expires', { kind: 'date' })}
      ${codeField(cement, base, on, set)}
      ${cement.gtin === '' ? nothing : text('gtin', 'gtin', 'Device identifier (UDI)')}
      ${expiredField(cement, base, on, set, problems)}
      ${choiceField(
        {
          path: `${base}.amine`,
          label: 'Self cure started by an amine',
          choices: TRI,
          value: cement.amine,
          set: (amine) => set({ ...cement, amine }),
        },
        problems,
      )}
      ${text('workingS', 'workingS', 'Working time', { unit: 's', hint: 'From mix, at 23 °C' })}
      ${text('settingS', 'settingS', 'Setting time', { unit: 's', hint: 'From mix, in the mouth' })}
    </div>
    ${tickField(
      {
        path: `${base}.carriesPhosphate`,
        label: 'Holds a phosphate monomer, so zirconia needs no primer',
        value: cement.carriesPhosphate,
        set: (value) => set({ ...cement, carriesPhosphate: value }),
      },
      problems,
    )}
    ${
      remove === null
        ? nothing
        : html`<button type="button" class="act" @click=${press(remove)}>
            Remove this cement
          </button>`
    }
  </div>`;
}

function cements(shelf: ShelfDraft, set: Set, problems: Problems, on: string): TemplateResult {
  const put = (list: readonly CementDraft[]): void => set({ ...shelf, cements: list });
  return html`<h3>Cements</h3>
    ${shelf.cements.map((cement, at) =>
      cementForm(
        cement,
        at,
        (changed) => put(shelf.cements.with(at, changed)),
        shelf.cements.length > 1 ? () => put(shelf.cements.toSpliced(at, 1)) : null,
        problems,
        on,
      ),
    )}
    ${
      shelf.cements.length < MAX_CEMENTS
        ? html`<button
            type="button"
            class="act"
            @click=${press(() => put([...shelf.cements, blankCement]))}
          >
            Add a cement
          </button>`
        : nothing
    }`;
}

/** The whole shelf; fields are named `shelf.…` as in a case file. `on`: day of the appointment, or empty. */
export function shelfForm(
  shelf: ShelfDraft,
  set: Set,
  problems: Problems,
  on = '',
): TemplateResult {
  const { abrasion, light } = shelf;
  const blast = fieldsOf(
    abrasion,
    'shelf.abrasion',
    (next) => set({ ...shelf, abrasion: next }),
    problems,
  );
  const lamp = fieldsOf(light, 'shelf.light', (next) => set({ ...shelf, light: next }), problems);
  return html`<p class="note">
      Times from the instructions for use outrank the built-in ones. Leave them blank to use the
      built-in ones.
    </p>
    ${held(
      'shelf.abrasion',
      'Chairside air abrasion',
      abrasion.held,
      (value) => set({ ...shelf, abrasion: { ...abrasion, held: value } }),
      () =>
        html`<div class="fields fields-numbers">
          ${blast('particleUm', 'particleUm', 'Alumina', { unit: 'µm' })}
          ${blast('bar', 'bar', 'Pressure', { unit: 'bar' })}
          ${blast('minS', 'ifu.minS', 'Minimum', { unit: 's' })}
          ${blast('targetS', 'ifu.targetS', 'Aim', { unit: 's' })}
          ${blast('maxS', 'ifu.maxS', 'Maximum', { unit: 's' })}
        </div>`,
      problems,
    )}
    ${ITEMS.map((key) =>
      held(
        `shelf.${key}`,
        ITEM_WORDS[key],
        shelf[key].held,
        (value) => set({ ...shelf, [key]: { ...shelf[key], held: value } }),
        () => itemFields(shelf, key, set, problems, on),
        problems,
      ),
    )}
    ${held(
      'shelf.light',
      'Curing light',
      light.held,
      (value) => set({ ...shelf, light: { ...light, held: value } }),
      () =>
        html`<div class="fields fields-numbers">
          ${lamp('mwCm2', 'mwCm2', 'Radiometer reading', { unit: 'mW/cm²' })}
          ${lamp('baselineMwCm2', 'baselineMwCm2', 'Reading when new', { unit: 'mW/cm²' })}
        </div>`,
      problems,
    )}
    ${cements(shelf, set, problems, on)} ${shelfNumbers(shelf, set, problems)}`;
}
