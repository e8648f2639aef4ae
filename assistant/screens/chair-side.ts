/** Beside the step and the dwell: the cement's clock, what comes next, the states. */
import { html, nothing, type TemplateResult } from 'lit';
import type { ChairView } from '../../machines/contract/index.ts';
import { minutes, secondsLeft } from './format.ts';
import { icon, type Shape } from './icons.ts';
import { CONTAMINANT_WORDS, stateWords } from './words.ts';

/** The working time left, or that it is over. */
export function seatBy(ms: number | null): TemplateResult | typeof nothing {
  if (ms === null) return nothing;
  const over = ms <= 0;
  return html`<div class="seat-by ${over ? 'seat-by-over' : ''}">
    <span class="seat-by-name"
      >${icon(over ? 'long' : 'early')}${over ? 'Do not seat' : 'Seat within'}</span
    >
    <span class="seat-by-time" role="timer" aria-label="Working time left"
      >${over ? 'over' : minutes(secondsLeft(ms))}</span
    >
  </div>`;
}

/** States in which a surface is fit for what comes next. */
const FIT = new Set(['primed', 'loaded', 'ready', 'dry', 'seated', 'clean', 'conditioned', 'set']);
const UNFIT = new Set(['soiled', 'open', 'exposed']);

const shapeOf = (state: string): Shape | null => {
  if (UNFIT.has(state)) return 'long';
  return FIT.has(state) ? 'right' : null;
};

function row(name: string, state: string, more = ''): TemplateResult {
  const shape = shapeOf(state);
  return html`<div class="state">
    <dt>${name}</dt>
    <dd>${shape === null ? nothing : icon(shape)}<span>${stateWords(state)}${more}</span></dd>
  </div>`;
}

/** Next step and states of the surfaces; a refusal takes the next step's room. */
export function chairSide(view: ChairView): TemplateResult {
  const { surfaces } = view;
  const seated = surfaces.where === 'seated' && surfaces.intaglio === 'seated';
  const soil = (surfaces.intaglio === 'soiled' ? surfaces.contaminants : []).map(
    (contaminant) => CONTAMINANT_WORDS[contaminant],
  );
  return html`<aside class="chair-side" aria-label="States" tabindex="0">
    ${
      view.then === null || view.refusal !== null
        ? nothing
        : html`<p class="then"><span>Then</span> ${view.then.title}</p>`
    }
    <dl class="states">
      ${row('Crown', surfaces.where)}
      ${
        seated
          ? nothing
          : html`${row('Intaglio', surfaces.intaglio, soil.length === 0 ? '' : `: ${soil.join(', ')}`)}
            ${row('Prep', surfaces.prep)}`
      }
      ${row('Field', surfaces.field)} ${row('Cement', surfaces.cement)}
    </dl>
  </aside>`;
}
