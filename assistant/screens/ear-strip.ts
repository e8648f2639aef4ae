/** What the ear is doing, what it heard last, and what Seatcall said. */
import { html, nothing, type TemplateResult } from 'lit';
import { styleMap } from 'lit/directives/style-map.js';
import { callText } from '../../prompts/catalogue/index.ts';
import { becameWords, earWords } from './ear-words.ts';
import { icon } from './icons.ts';
import type { Actions, AppState, LastHeard } from './model.ts';
import { press } from './press.ts';
import { WAY_WORDS } from './words.ts';

function heardWords(heard: LastHeard | null): TemplateResult {
  if (heard === null) return html`<p class="heard"><span class="tag">Heard</span> nothing yet</p>`;
  const became = becameWords(heard.became);
  const tag = heard.via === 'voice' || heard.via === 'file' ? 'Heard' : WAY_WORDS[heard.via];
  return html`<p class="heard heard-${heard.became}">
    <span class="tag">${tag}</span>
    <q>${heard.words}</q>
    <span class="became">${icon(became.shape)}${became.words}</span>
  </p>`;
}

/** The strip at the foot of the chairside screen. */
export function earStrip(state: AppState, actions: Actions): TemplateResult {
  const { ear, chair } = state;
  const words = earWords(ear, state.settings.values.callSign);
  const canStart = ear.kind === 'off' || ear.kind === 'trouble';
  // A refusal or a question that stands in full above is not written twice.
  const call = chair?.lastCall?.id;
  const shownAbove =
    chair !== null &&
    ((chair.view.refusal !== null && call === 'refusal') ||
      (chair.view.asked !== null && call === chair.view.asked.id));
  const level = Math.round(Math.min(1, Math.max(0, state.level)) * 100);
  return html`<section class="chair-ear ear-${ear.kind}" aria-label="Listening">
    <div class="ear-state" role=${ear.kind === 'trouble' ? 'alert' : nothing}>
      ${icon(words.shape)}
      <p><strong>${words.state}</strong> <span>${words.hint}</span></p>
      ${
        canStart
          ? html`<button type="button" class="act" @click=${press(() => actions.listen(true))}>
              ${ear.kind === 'off' ? 'Listen' : 'Try again'}
            </button>`
          : html`<div
              class="level"
              role="meter"
              aria-label="Input level"
              aria-valuemin="0"
              aria-valuemax="100"
              aria-valuenow=${level}
            >
              <span style=${styleMap({ '--at': String(level) })}></span>
            </div>`
      }
    </div>
    <div class="talk">
      ${heardWords(chair?.lastHeard ?? null)}
      <p class="said ${shownAbove ? 'unseen' : ''}" role="status">
        ${
          chair?.lastCall == null
            ? nothing
            : html`<span class="tag">Said</span> ${callText(chair.lastCall)}`
        }
      </p>
    </div>
  </section>`;
}
