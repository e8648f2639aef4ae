/** The typed way in, with the history of the session. */
import { html, type TemplateResult } from 'lit';
import type { Actions } from './model.ts';

/** How many lines back each input stands; 0 is the line being written. */
const backs = new WeakMap<HTMLInputElement, number>();

/** The line `back` steps before the newest, and how far back that is within bounds. */
export function recall(
  history: readonly string[],
  back: number,
): { readonly back: number; readonly text: string } {
  const bounded = Math.min(history.length, Math.max(0, back));
  return { back: bounded, text: history[history.length - bounded] ?? '' };
}

/** Id of the input, for the key that goes to it. */
export const COMMAND_LINE_ID = 'command-line';

/** An input for commands; up and down bring earlier ones back. */
export function commandLine(history: readonly string[], actions: Actions): TemplateResult {
  const onKey = (event: KeyboardEvent): void => {
    const input = event.currentTarget;
    const step = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
    if (step === 0 || !(input instanceof HTMLInputElement)) return;
    event.preventDefault();
    const { back, text } = recall(history, (backs.get(input) ?? 0) + step);
    backs.set(input, back);
    input.value = text;
  };
  const onSubmit = (event: Event): void => {
    event.preventDefault();
    const input =
      event.currentTarget instanceof HTMLFormElement
        ? event.currentTarget.querySelector('input')
        : null;
    if (input === null || input.value.trim() === '') return;
    const text = input.value.trim();
    input.value = '';
    backs.delete(input);
    // Left in the field, the next press of a pedal that is a space would be typed.
    input.blur();
    actions.typed(text);
  };
  return html`<form class="command-line" @submit=${onSubmit}>
    <label for=${COMMAND_LINE_ID}>Type a command</label>
    <input
      id=${COMMAND_LINE_ID}
      type="text"
      autocomplete="off"
      autocapitalize="none"
      spellcheck="false"
      enterkeyhint="send"
      @keydown=${onKey}
    />
  </form>`;
}
