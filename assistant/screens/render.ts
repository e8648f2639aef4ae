/** The one way from state to page. */
import { html, render, type TemplateResult } from 'lit';
import './base.css';
import './chair-parts.css';
import './chairside.css';
import { chairside } from './chairside.ts';
import type { Actions, AppState } from './model.ts';

function page(state: AppState, actions: Actions): TemplateResult {
  if (state.page === 'chairside' && state.chair !== null) {
    return chairside(state, state.chair, actions);
  }
  return html``;
}

/** Shows `state` in `root`; call it again with every new state. */
export function show(state: AppState, actions: Actions, root: HTMLElement): void {
  render(page(state, actions), root);
}
