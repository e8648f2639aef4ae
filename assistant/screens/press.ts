/** Buttons that do not keep the focus after a touch. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Actions } from './model.ts';
import type { Offer } from './offers.ts';

/**
 * A button's handler. After a touch or click the button gives the focus up: left on it, the next
 * pedal press, if the pedal is a space or enter, would press it again. From the keyboard
 * (`detail` 0) the focus stays.
 */
export const press =
  (act: () => void) =>
  (event: Event): void => {
    if (
      event instanceof UIEvent &&
      event.detail > 0 &&
      event.currentTarget instanceof HTMLElement
    ) {
      event.currentTarget.blur();
    }
    act();
  };

/** A command button of the chair. */
export function offerButton(offer: Offer, actions: Actions): TemplateResult {
  return html`<button
    type="button"
    class="act act-${offer.tone}"
    @click=${press(() => actions.command(offer.command, 'touch', offer.label))}
  >
    <span>${offer.label}</span>${
      offer.key === '' || offer.key === '+'
        ? nothing
        : html`<kbd aria-hidden="true">${offer.key}</kbd>`
    }
  </button>`;
}
