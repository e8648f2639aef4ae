/** The room check: what to do now, and how well the room is heard. */
import { html, nothing, type TemplateResult } from 'lit';
import { styleMap } from 'lit/directives/style-map.js';
import { icon } from './icons.ts';
import type { Actions, AppState, RoomView } from './model.ts';
import { press } from './press.ts';

const VERDICTS = {
  good: { shape: 'right', words: 'Hears well here.' },
  fair: { shape: 'long', words: 'Hears most of it; some commands will have to be said again.' },
  poor: { shape: 'no', words: 'Hears badly here. Pedal, keys and touch work all the same.' },
} as const;

const OUTCOMES = {
  right: { shape: 'right', words: 'heard' },
  other: { shape: 'no', words: 'taken for something else' },
  nothing: { shape: 'long', words: 'not heard' },
} as const;

function meter(level: number): TemplateResult {
  const at = Math.round(Math.min(1, Math.max(0, level)) * 100);
  return html`<div
    class="level"
    role="meter"
    aria-label="Input level"
    aria-valuemin="0"
    aria-valuemax="100"
    aria-valuenow=${at}
  >
    <span style=${styleMap({ '--at': String(at) })}></span>
  </div>`;
}

function report(room: Extract<RoomView, { stage: 'done' }>): TemplateResult {
  const verdict = VERDICTS[room.verdict];
  return html`<p class="room-verdict" role="status">
      ${icon(verdict.shape)}<strong>${verdict.words}</strong>
    </p>
    <ul class="room-phrases">
      ${room.phrases.map(({ words, outcome }) => {
        const became = OUTCOMES[outcome];
        return html`<li>${icon(became.shape)}<q>${words}</q> ${became.words}</li>`;
      })}
    </ul>
    <p class="note">
      ${
        room.marginDb === null
          ? 'No speech came through.'
          : `Speech stands ${room.marginDb} dB above the room.`
      }
    </p>
    ${room.remedies.map((remedy) => html`<p>${remedy}</p>`)}`;
}

function now(room: RoomView, state: AppState): TemplateResult {
  switch (room.stage) {
    case 'starting':
      return html`<p role="status">Opening the microphone.</p>`;
    case 'quiet':
      return html`<p class="room-now" role="status">
          Suction and handpiece as usual, nobody speaks. <output>${room.leftS} s</output>
        </p>
        ${meter(state.level)}`;
    case 'reading':
      return html`<p class="room-now" role="status">
          Say <q>${state.settings.values.callSign}, ${room.say}</q>
        </p>
        <p class="note">
          ${room.done + 1} of ${room.all}, mask on, at the chair. ${room.leftS} s left
        </p>
        ${meter(state.level)}`;
    case 'done':
      return report(room);
  }
}

/** The room check, to be made before the first case of the day. */
export function roomPanel(state: AppState, actions: Actions): TemplateResult {
  const { room } = state;
  const running = room !== null && room.stage !== 'done';
  return html`<section class="room" aria-label="Room check">
    <h2>Room check</h2>
    ${room === null ? html`<p class="note">Half a minute, before the first case of the day: how loud the room is, and whether three phrases are heard.</p>` : now(room, state)}
    ${
      state.chair !== null && state.chair.view.pace !== 'closed'
        ? nothing
        : html`<button type="button" class="act" @click=${press(() => actions.checkRoom(!running))}>
            ${running ? 'End the check' : room === null ? 'Check the room' : 'Check again'}
          </button>`
    }
  </section>`;
}
