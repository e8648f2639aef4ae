/** The one way from state to page. */
import { render, type TemplateResult } from 'lit';
import './base.css';
import './chair-parts.css';
import './chairside.css';
import './desk.css';
import './ear-strip.css';
import './pictures.css';
import './review.css';
import './sheet.css';
import { checkPage } from './check-page.ts';
import { chairside } from './chairside.ts';
import { deskPage } from './desk.ts';
import type { Actions, AppState } from './model.ts';
import { recordPage } from './record-page.ts';
import { reviewPage } from './review-page.ts';
import { settingsPage } from './settings-page.ts';

function pageOf(state: AppState, actions: Actions): TemplateResult {
  const { page, chair, record } = state;
  if (page === 'chairside' && chair !== null) return chairside(state, chair, actions);
  if (page === 'record' && record !== null) return recordPage(state, record, actions);
  if (page === 'check') return checkPage(state, actions);
  if (page === 'review') return reviewPage(state, actions);
  if (page === 'settings') return settingsPage(state, actions);
  return deskPage(state, actions);
}

/** Shows `state` in `root`; call it again with every new state. */
export function show(state: AppState, actions: Actions, root: HTMLElement): void {
  render(pageOf(state, actions), root);
}
