/** Labelled inputs with what is wrong with them beside them. */
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { FieldProblem } from './problem.ts';

type Content = TemplateResult | typeof nothing;

/** What every field has. `path` is its place in a case file, such as `units[0].prep.heightMm`. */
interface FieldOf<T> {
  readonly path: string;
  readonly label: string;
  /** Stands under the input. */
  readonly hint?: string;
  readonly value: T;
  readonly set: (value: T) => void;
}

export interface TextField extends FieldOf<string> {
  /** Shown behind the input; makes it a number field. */
  readonly unit?: string;
  readonly kind?: 'text' | 'date';
}

export interface ChoiceField extends FieldOf<string> {
  readonly choices: readonly (readonly [value: string, words: string])[];
  /** Stands for no choice yet; left out where there always is one. */
  readonly none?: string;
}

export type TickField = FieldOf<boolean>;

/** Ids may hold no brackets that a selector would trip on. */
const idOf = (path: string): string => `f-${path.replaceAll(/[^\w]+/gu, '-')}`;

/** What is wrong with a field, as sentences. */
interface Amiss {
  readonly messages: readonly string[];
  /** Something stands there that is not allowed; what is only missing is no error yet. */
  readonly wrong: boolean;
}

/** `short` drops what the label and the hint say already: what the field is. */
function amissAt(problems: readonly FieldProblem[], path: string, short: boolean): Amiss {
  const messages = problems
    .filter(({ field }) => field === path)
    .map(({ message }) => (short ? message.replace(/ \([^)]*\)/u, '') : message))
    .map((message) => `${message.charAt(0).toUpperCase()}${message.slice(1)}.`);
  return { messages, wrong: messages.some((message) => !message.startsWith('Missing')) };
}

/** In a list of choices what is allowed stands in the list. */
function choiceAmiss(problems: readonly FieldProblem[], path: string): Amiss {
  const amiss = amissAt(problems, path, false);
  return amiss.wrong || amiss.messages.length === 0
    ? amiss
    : { messages: ['Still to choose.'], wrong: false };
}

function below(path: string, hint: string | undefined, { messages, wrong }: Amiss): Content {
  if (messages.length === 0 && hint === undefined) return nothing;
  return html`<p class="field-below" id=${`${idOf(path)}-below`}>
    ${messages.length > 0 ? html`<span class=${wrong ? 'field-bad' : 'field-missing'}>${messages.join(' ')}</span>` : nothing}
    ${hint === undefined ? nothing : html`<span>${hint}</span>`}
  </p>`;
}

const valueOf = (event: Event): string =>
  event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement
    ? event.target.value
    : '';

/** A line of text, a number or a date. */
export function textField(field: TextField, problems: readonly FieldProblem[]): TemplateResult {
  const id = idOf(field.path);
  const amiss = amissAt(problems, field.path, field.hint !== undefined);
  const described = amiss.messages.length > 0 || field.hint !== undefined;
  return html`<div class="field">
    <label for=${id}>${field.label}</label>
    <span class="field-in">
      <input
        id=${id}
        type=${field.kind ?? 'text'}
        inputmode=${field.unit === undefined ? nothing : 'decimal'}
        class=${field.unit === undefined ? '' : 'narrow'}
        autocomplete="off"
        aria-invalid=${amiss.wrong ? 'true' : nothing}
        aria-describedby=${described ? `${id}-below` : nothing}
        .value=${live(field.value)}
        @input=${(event: Event) => field.set(valueOf(event))}
      />${field.unit === undefined ? nothing : html`<span class="field-unit">${field.unit}</span>`}
    </span>
    ${below(field.path, field.hint, amiss)}
  </div>`;
}

/** One of a list. */
export function choiceField(field: ChoiceField, problems: readonly FieldProblem[]): TemplateResult {
  const id = idOf(field.path);
  const amiss = choiceAmiss(problems, field.path);
  const described = amiss.messages.length > 0 || field.hint !== undefined;
  const known = field.choices.some(([value]) => value === field.value);
  const option = (value: string, words: string): TemplateResult =>
    html`<option value=${value} .selected=${value === field.value}>${words}</option>`;
  return html`<div class="field">
    <label for=${id}>${field.label}</label>
    <select
      id=${id}
      aria-invalid=${amiss.wrong ? 'true' : nothing}
      aria-describedby=${described ? `${id}-below` : nothing}
      @change=${(event: Event) => field.set(valueOf(event))}
    >
      ${known ? nothing : option(field.value, field.value === '' ? (field.none ?? '') : field.value)}
      ${field.choices.map(([value, words]) => option(value, words))}
    </select>
    ${below(field.path, field.hint, amiss)}
  </div>`;
}

/** Yes or no. */
export function tickField(field: TickField, problems: readonly FieldProblem[]): TemplateResult {
  const id = idOf(field.path);
  const amiss = amissAt(problems, field.path, false);
  return html`<div class="field field-tick">
    <input
      id=${id}
      type="checkbox"
      aria-describedby=${amiss.messages.length > 0 || field.hint !== undefined ? `${id}-below` : nothing}
      .checked=${live(field.value)}
      @change=${(event: Event) => {
        if (event.target instanceof HTMLInputElement) field.set(event.target.checked);
      }}
    />
    <label for=${id}>${field.label}</label>
    ${below(field.path, field.hint, amiss)}
  </div>`;
}

/** A file to load; the input is emptied so that the same file can be chosen again. */
export function fileField(
  id: string,
  label: string,
  accept: string,
  take: (file: File) => void,
): TemplateResult {
  return html`<div class="file">
    <label for=${id}>${label}</label>
    <input
      id=${id}
      type="file"
      accept=${accept}
      @change=${(event: Event) => {
        if (!(event.target instanceof HTMLInputElement)) return;
        const file = event.target.files?.[0];
        event.target.value = '';
        if (file !== undefined) take(file);
      }}
    />
  </div>`;
}

/** Problems whose field no input shows: `shown` says which paths have one. */
export function otherProblems(
  problems: readonly FieldProblem[],
  shown: (path: string) => boolean,
): Content {
  const others = problems.filter(({ field }) => !shown(field));
  if (others.length === 0) return nothing;
  return html`<ul class="others">
    ${others.map(({ field, message }) => html`<li>${field === '' ? '' : `${field}: `}${message}</li>`)}
  </ul>`;
}
