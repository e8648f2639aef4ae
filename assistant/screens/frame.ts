/** What every page shares: the way to the other pages, and the caution. */
import { html, nothing, type TemplateResult } from 'lit';
import { icon } from './icons.ts';
import type { Actions, AppState, Page } from './model.ts';
import { press } from './press.ts';
import { CAUTION } from './words.ts';

const NAMES = {
  desk: 'Desk',
  chairside: 'Chair',
  record: 'Record',
  check: 'Check a file',
  review: 'Review',
  settings: 'Settings',
} as const satisfies Readonly<Record<Page, string>>;

/** Read at a desk only; at the chair their links would take a line of its height. */
const AT_DESK: readonly Page[] = ['check', 'review'];

/** Links between pages; a page with nothing to show is left out. */
export function pages(state: AppState, actions: Actions): TemplateResult {
  const shown = (['desk', 'chairside', 'record', 'check', 'review', 'settings'] as const).filter(
    (page) =>
      (page !== 'chairside' || state.chair !== null) &&
      (page !== 'record' || state.record !== null) &&
      (state.page !== 'chairside' || !AT_DESK.includes(page)),
  );
  return html`<nav class="pages" aria-label="Pages">
    ${shown.map(
      (page) =>
        html`<button
          type="button"
          aria-current=${page === state.page ? 'page' : nothing}
          @click=${press(() => actions.go(page))}
        >
          ${NAMES[page]}
        </button>`,
    )}
  </nav>`;
}

/** The caution that stands on every screen. */
export const caution = (): TemplateResult => html`<p class="caution">${CAUTION}</p>`;

/** What everybody must know now, until it is put away. */
export function noticeBar(state: AppState, actions: Actions): TemplateResult | typeof nothing {
  if (state.notice === null) return nothing;
  return html`<div class="notice" role="alert">
    ${icon('long')}<span>${state.notice}</span>
    <button type="button" class="act" @click=${press(() => actions.dismissNotice())}>
      Understood
    </button>
  </div>`;
}

/** A page that is read sitting down: top row, content, caution. */
export function sheet(
  state: AppState,
  actions: Actions,
  title: string,
  content: TemplateResult,
): TemplateResult {
  return html`<div class="sheet">
    <header class="sheet-top">
      <h1>${title}</h1>
      ${pages(state, actions)}
    </header>
    ${noticeBar(state, actions)} ${content}
    <footer>${caution()}</footer>
  </div>`;
}
