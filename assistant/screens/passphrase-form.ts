/** Forms that ask for a passphrase. What is typed stays in the page and in no state. */
import { html, nothing, type TemplateResult } from 'lit';
import { icon } from './icons.ts';
import type { Actions, LockedFile } from './model.ts';
import { press } from './press.ts';

/** The fields of a form by name, when it is sent; nothing else happens. */
export const sent =
  (take: (values: (name: string) => string) => void) =>
  (event: Event): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const data = new FormData(event.currentTarget);
    take((name) => {
      const value = data.get(name);
      return typeof value === 'string' ? value : '';
    });
  };

/** What is wrong, said where it happened. */
export const problemLine = (problem: string | null): TemplateResult | typeof nothing =>
  problem === null
    ? nothing
    : html`<p class="field-bad" role="alert">${icon('long')} <span>${problem}</span></p>`;

/** Asks for the passphrase of a file that was given. */
export function lockedFileBox(locked: LockedFile, actions: Actions): TemplateResult {
  return html`<form
    class="asking"
    aria-label="Passphrase"
    @submit=${sent((value) => actions.unlockFile(value('passphrase')))}
  >
    <p><strong>${locked.name}</strong>: under a passphrase.</p>
    <div class="field">
      <label for="unlock">Its passphrase</label>
      <input id="unlock" name="passphrase" type="password" autocomplete="off" required />
    </div>
    ${problemLine(locked.problem)}
    <div class="row-acts">
      <button type="submit" class="act act-main">Open it</button>
      <button type="button" class="act" @click=${press(() => actions.dismissLockedFile())}>
        Leave it
      </button>
    </div>
  </form>`;
}
