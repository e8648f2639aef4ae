/** The screen at the chair, read from two metres in a dark room. */
import { html, nothing, type TemplateResult } from 'lit';
import type { ChairView, StepStatus } from '../../machines/contract/index.ts';
import { callText } from '../../prompts/catalogue/index.ts';
import { chairAlerts, chairFocus, hazards } from './chair-focus.ts';
import { chairSide, seatBy } from './chair-side.ts';
import { commandLine } from './command-line.ts';
import { earStrip } from './ear-strip.ts';
import { count } from './format.ts';
import { caution, noticeBar, pages } from './frame.ts';
import { icon } from './icons.ts';
import { KEY_LIST } from './keys.ts';
import type { Actions, AppState, ChairState } from './model.ts';
import { answers, mainOffer, moreOffers, nearOffers, type Offer, soilOffers } from './offers.ts';
import { offerButton, press } from './press.ts';

const STATUS = {
  open: { sign: '', words: '' },
  now: { sign: '▸', words: 'now' },
  running: { sign: '▸', words: 'running' },
  done: { sign: '✓', words: 'done' },
  skipped: { sign: '–', words: 'skipped' },
  again: { sign: '↻', words: 'due again' },
} as const satisfies Readonly<
  Record<StepStatus, { readonly sign: string; readonly words: string }>
>;

function stepList({ steps }: ChairView): TemplateResult {
  const done = steps.filter(({ status }) => status === 'done' || status === 'skipped').length;
  return html`<details class="step-list">
    <summary @click=${press(() => undefined)}>Steps ${done}/${steps.length}</summary>
    <ol tabindex="0" aria-label="Steps of this unit">
      ${steps.map(
        ({ title, status }) =>
          html`<li
            class="status-${status}"
            aria-current=${status === 'now' || status === 'running' ? 'step' : nothing}
          >
            <span aria-hidden="true">${STATUS[status].sign}</span> ${title}
            <small>${STATUS[status].words}</small>
          </li>`,
      )}
    </ol>
  </details>`;
}

function unitTabs({ view }: ChairState, actions: Actions): TemplateResult {
  const { unit, units } = view;
  const tabs =
    units.length < 2
      ? html`<strong class="tooth">${unit.tooth}</strong>`
      : units.map(
          ({ tooth, active, finished }) =>
            html`<button
              type="button"
              class="tooth"
              aria-pressed=${active ? 'true' : 'false'}
              @click=${press(() => actions.command({ type: 'unit', tooth }, 'touch', tooth))}
            >
              ${tooth}${finished ? html` ✓<span class="unseen"> finished</span>` : nothing}
            </button>`,
        );
  return html`<div class="unit">
    ${tabs}<span class="unit-name">${unit.name}<br />${unit.materialName}</span>
  </div>`;
}

function keysBox(shown: boolean): TemplateResult | typeof nothing {
  if (!shown) return nothing;
  return html`<section class="keys" id="keys" aria-label="Keys">
    <dl>
      ${KEY_LIST.map(
        ([key, does]) =>
          html`<div>
            <dt><kbd>${key}</kbd></dt>
            <dd>${does}</dd>
          </div>`,
      )}
    </dl>
  </section>`;
}

function topRow(state: AppState, chair: ChairState, actions: Actions): TemplateResult {
  const { view } = chair;
  return html`<header class="chair-top">
    ${unitTabs(chair, actions)}
    <div class="chair-marks">
      ${view.invented ? html`<span class="chip">Invented demo</span>` : nothing}
      ${
        view.deviations > 0
          ? html`<span class="chip chip-warn"
              >${count(view.deviations, 'deviation', 'deviations')}</span
            >`
          : nothing
      }
      ${stepList(view)}
      <button
        type="button"
        class="quiet"
        aria-expanded=${state.keysShown ? 'true' : 'false'}
        @click=${press(() => actions.showKeys(!state.keysShown))}
      >
        Keys
      </button>
      ${pages(state, actions)}
    </div>
  </header>`;
}

function stepWordsBox(view: ChairView): TemplateResult {
  const { step, pace, units, unit, asked, refusal, dwells } = view;
  if (pace === 'closed') {
    return html`<h1>Case closed</h1>
      <p class="todo">The record is sealed.</p>`;
  }
  if (step !== null) {
    // With a question or a halt the one thing to do is the answer; it stands in the alert below.
    if (asked !== null || pace !== 'going') return html`<h1>${step.title}</h1>`;
    // Large is what is said aloud. The plan's own sentence holds the details of this unit; a
    // refusal, or a dwell of another step, needs its room more.
    const said = callText({ id: 'step', step: step.id, seconds: null });
    const elsewhere = dwells.some((dwell) => dwell.step !== step.id);
    const detailed = step.todo !== said && refusal === null && !elsewhere;
    return html`<h1>${step.title}</h1>
      <p class="todo">${said}</p>
      ${detailed ? html`<p class="detail">${step.todo}</p>` : nothing}`;
  }
  const all = units.every(({ finished }) => finished);
  return html`<h1>Unit ${unit.tooth} is finished</h1>
    <p class="todo">${all ? 'Close the case.' : 'Go to the other unit.'}</p>`;
}

/** A command was chosen: the drawer would only hide what it changed. */
function closeDrawer(event: Event): void {
  const drawerOf = event.target instanceof Element ? event.target.closest('details') : null;
  if (drawerOf !== null && event.target !== event.currentTarget) drawerOf.open = false;
}

function drawer(
  name: string,
  tone: string,
  offers: readonly Offer[],
  actions: Actions,
): TemplateResult | typeof nothing {
  if (offers.length === 0) return nothing;
  return html`<details class="drawer" name="drawer">
    <summary class="act act-${tone}" @click=${press(() => undefined)}>${name}</summary>
    <div @click=${closeDrawer}>${offers.map((offer) => offerButton(offer, actions))}</div>
  </details>`;
}

function actsRow(chair: ChairState, actions: Actions): TemplateResult {
  const replies = answers(chair.view.asked);
  const main = replies.length > 0 ? null : mainOffer(chair);
  return html`<section
    class="chair-acts ${replies.length > 2 ? 'acts-reasons' : ''}"
    aria-label=${replies.length > 0 ? 'Answers' : 'Commands'}
  >
    ${main === null ? nothing : offerButton(main, actions)}
    ${
      replies.length > 0
        ? html`<div class="replies">${replies.map((offer) => offerButton(offer, actions))}</div>`
        : html`<div class="side-acts">
            ${nearOffers(chair).map((offer) => offerButton(offer, actions))}
            ${drawer('Contaminated', 'warn', soilOffers(chair), actions)}
            ${drawer('More', 'plain', moreOffers(chair), actions)}
          </div>`
    }
    ${
      chair.view.pace === 'closed'
        ? nothing
        : html`<button
            type="button"
            class="act act-stop"
            @click=${press(() => actions.command({ type: 'stop' }, 'touch', 'Stop'))}
          >
            ${icon('stop')}<span>Stop</span><kbd aria-hidden="true">Esc</kbd>
          </button>`
    }
  </section>`;
}

/** Chairside, for an open case. */
export function chairside(state: AppState, chair: ChairState, actions: Actions): TemplateResult {
  const { view } = chair;
  return html`<div class="chair pace-${view.pace}">
    ${topRow(state, chair, actions)} ${keysBox(state.keysShown)}
    <section class="chair-step" aria-label="Step">
      ${seatBy(view.seatByMs)}
      <div aria-live="polite">${stepWordsBox(view)}</div>
      ${hazards(view)}
    </section>
    ${chairAlerts(view, noticeBar(state, actions))} ${chairFocus(view)} ${chairSide(view)}
    ${earStrip(state, actions)} ${actsRow(chair, actions)}
    <footer class="chair-foot">${commandLine(chair.typedHistory, actions)} ${caution()}</footer>
  </div>`;
}
