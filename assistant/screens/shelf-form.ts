/** The practice's shelf, as a form. */
import { html, nothing, type TemplateResult } from 'lit';
import {
  blankCement,
  type CementDraft,
  type ItemKey,
  ITEMS,
  type ShelfDraft,
} from './draft-shelf.ts';
import { choiceField, type TextField, textField, tickField } from './field.ts';
import type { CaseProblem } from './model.ts';
import { press } from './press.ts';
import { CEMENT_WORDS } from './words.ts';

const ITEM_WORDS = {
  cleaner: 'Alkaline zirconia-suspension cleaner',
  hydrofluoricAcid: 'Hydrofluoric acid',
  phosphoricAcid: 'Phosphoric acid',
  silane: 'Silane',
  phosphatePrimer: '10-MDP primer',
  adhesive: 'Universal adhesive',
} as const satisfies Readonly<Record<ItemKey, string>>;

const MAX_CEMENTS = 12;

type Set = (shelf: ShelfDraft) => void;
type Problems = readonly CaseProblem[];

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

/** A text field of some draft: which key of it, and the path of that in the case file. */
function fieldsOf<T>(
  draft: T,
  base: string,
  set: (draft: T) => void,
  problems: Problems,
): <K extends keyof T>(
  key: K & (T[K] extends string ? K : never),
  path: string,
  label: string,
  more?: Partial<Pick<TextField, 'unit' | 'hint' | 'kind'>>,
) => TemplateResult {
  return (key, path, label, more = {}) =>
    textField(
      {
        path: `${base}.${path}`,
        label,
        value: String(draft[key]),
        set: (value) => set({ ...draft, [key]: value }),
        ...more,
      },
      problems,
    );
}

function itemFields(shelf: ShelfDraft, key: ItemKey, set: Set, problems: Problems): TemplateResult {
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
    </div>
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

function cements(shelf: ShelfDraft, set: Set, problems: Problems): TemplateResult {
  const put = (list: readonly CementDraft[]): void => set({ ...shelf, cements: list });
  return html`<h3>Cements</h3>
    ${shelf.cements.map((cement, at) =>
      cementForm(
        cement,
        at,
        (changed) => put(shelf.cements.with(at, changed)),
        shelf.cements.length > 1 ? () => put(shelf.cements.toSpliced(at, 1)) : null,
        problems,
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

/** The whole shelf; fields are named `shelf.…` as in a case file. */
export function shelfForm(shelf: ShelfDraft, set: Set, problems: Problems): TemplateResult {
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
        () => itemFields(shelf, key, set, problems),
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
        </div>`,
      problems,
    )}
    ${cements(shelf, set, problems)}`;
}
