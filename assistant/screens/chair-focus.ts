/** The middle of the chairside screen: what must be read first, then the dwell or what to look for. */
import { html, nothing, type TemplateResult } from 'lit';
import { styleMap } from 'lit/directives/style-map.js';
import type {
  Call,
  ChairView,
  ClockView,
  DwellView,
  Refusal,
} from '../../machines/contract/index.ts';
import { callPieces, callText } from '../../prompts/catalogue/index.ts';
import { barMarks, byUrgency, dwellTime, dwellWords } from './dwell-words.ts';
import { duration, minutes, secondsLeft } from './format.ts';
import { icon } from './icons.ts';
import { stepWords } from './words.ts';

type Content = TemplateResult | typeof nothing;

function refusalBox(refusal: Refusal | null): Content {
  if (refusal === null) return nothing;
  const [no = '', why = '', ...wayOn] = callPieces({ id: 'refusal', refusal });
  return html`<div class="refusal" role="alert">
    ${icon('no')}
    <p><strong>${no} ${why}</strong> <span>${wayOn.join(' ')}</span></p>
  </div>`;
}

function questionBox(asked: Call | null): Content {
  if (asked === null) return nothing;
  return html`<p class="question" role="alert">
    ${icon('ask')}<span>${callPieces(asked).join(' ')}</span>
  </p>`;
}

const mark = (at: number, name: string, ms: number): TemplateResult =>
  html`<span class="mark mark-${name}" style=${styleMap({ '--at': String(at) })}
    ><span>${name} ${duration(ms / 1000)}</span></span
  >`;

function dwellBar(dwell: DwellView): TemplateResult {
  const marks = barMarks(dwell);
  const at = (value: number): Readonly<Record<string, string>> => ({ '--at': String(value) });
  return html`<div class="bar" aria-hidden="true">
    <div class="bar-early" style=${styleMap(at(marks.min))}></div>
    ${marks.max === null ? nothing : html`<div class="bar-late" style=${styleMap(at(marks.max))}></div>`}
    <div class="bar-fill" style=${styleMap(at(marks.elapsed))}></div>
    ${dwell.minMs > 0 ? mark(marks.min, 'min', dwell.minMs) : nothing}
    ${mark(marks.target, 'aim', dwell.targetMs)}
    ${dwell.maxMs === null || marks.max === null ? nothing : mark(marks.max, 'max', dwell.maxMs)}
  </div>`;
}

function dwellBox(dwell: DwellView, { unit, step }: ChairView): TemplateResult {
  const words = dwellWords(dwell);
  const whose = dwell.tooth === unit.tooth ? dwell.title : `${dwell.title}, ${dwell.tooth}`;
  // The step's own title stands above already.
  const named = dwell.step !== step?.id || dwell.tooth !== unit.tooth;
  const time = dwellTime(dwell);
  const clocked = time.includes(':') ? 'dwell-clocked' : '';
  return html`<div class="dwell ${clocked} dwell-${dwell.held ? 'held' : dwell.phase}">
    <div class="dwell-row">
      <span class="dwell-time" role="timer" aria-label=${`${whose}: seconds gone`}>${time}</span>
      <p class="dwell-words">
        ${named ? html`<span class="dwell-title">${whose}</span>` : nothing}
        <strong>${icon(words.shape)}${words.state}</strong>
        <span class="dwell-hint">${words.hint}</span>
      </p>
    </div>
    ${dwellBar(dwell)}
  </div>`;
}

function dwellLine(dwell: DwellView): TemplateResult {
  const words = dwellWords(dwell);
  return html`<li class="dwell-line dwell-${dwell.held ? 'held' : dwell.phase}">
    <span class="dwell-line-time">${dwellTime(dwell)}</span>
    ${icon(words.shape)}
    <span>${dwell.title}, ${dwell.tooth}: ${words.state.toLowerCase()}, ${words.hint}</span>
  </li>`;
}

const CLOCK_WORDS = {
  'seat-by': 'seat within',
  'hold-until-gel': 'keep it still, gelled in',
  'hold-until-set': 'keep it still, hard in',
  'use-within': 'use it within',
} as const satisfies Record<ClockView['clock'], string>;

/** A clock that runs by itself, beside the dwells: whose it is, and what is left. */
function clockLine({ clock, tooth, step, leftMs }: ClockView, view: ChairView): TemplateResult {
  const over = leftMs <= 0;
  const what = step === null ? '' : `${stepWords(step).toLowerCase()}, `;
  const whose = view.units.length > 1 ? `${tooth}: ` : '';
  return html`<li class="dwell-line ${over ? 'dwell-long' : 'dwell-right'}">
    <span class="dwell-line-time">${over ? 'over' : minutes(secondsLeft(leftMs))}</span>
    ${icon(over ? 'long' : 'right')}
    <span>${whose}${what}${CLOCK_WORDS[clock]}</span>
  </li>`;
}

function lookFor({ step, pace, asked }: ChairView): Content {
  if (step === null || pace !== 'going' || asked !== null) return nothing;
  return html`<div class="look">
    ${step.gate === '' ? nothing : html`<p class="gate"><b>Done when</b> ${step.gate}</p>`}
    ${
      step.targetS === null
        ? nothing
        : html`<p class="gate"><b>Timer</b> ${duration(step.targetS)}, from the start</p>`
    }
    <p class="gate"><b>Who</b> ${step.who === 'both' ? 'dentist and assistant' : step.who}</p>
  </div>`;
}

/**
 * Cautions of the step as they are said; the plan at the desk holds them in full. A refusal or a
 * question takes their room.
 */
export function hazards({ step, refusal, asked }: ChairView): Content {
  // The caution of every screen stands at the foot already.
  const shown = (step?.cautions ?? []).filter(({ id }) => id !== 'not-a-device');
  if (shown.length === 0 || refusal !== null || asked !== null) return nothing;
  return html`<ul class="hazards" aria-label="Caution of this step">
    ${shown.map(
      ({ id }) =>
        html`<li>${icon('long')}<span>${callText({ id: 'caution', caution: id })}</span></li>`,
    )}
  </ul>`;
}

function halted({ pace }: ChairView): Content {
  if (pace === 'stopped') {
    return html`<p class="halted" role="alert">
      ${icon('stop')}<strong>Stopped.</strong> Resume to go on.
    </p>`;
  }
  if (pace === 'paused') {
    return html`<p class="halted">${icon('held')}<strong>Paused.</strong> Resume to go on.</p>`;
  }
  return nothing;
}

/** What must be read before anything else: a notice, a halt, a refusal, a question. */
export function chairAlerts(view: ChairView, notice: Content): TemplateResult {
  return html`<div class="chair-alerts">
    ${notice} ${halted(view)} ${refusalBox(view.refusal)} ${questionBox(view.asked)}
  </div>`;
}

/** The dwells, the one that needs a hand first in full; without any, what to look for. */
export function chairFocus(view: ChairView): TemplateResult {
  const [first, ...others] = byUrgency(view.dwells);
  return html`<section class="chair-focus" aria-label="Now" tabindex="0">
    ${first === undefined ? lookFor(view) : dwellBox(first, view)}
    ${
      others.length + view.clocks.length > 0
        ? html`<ul class="dwell-lines">
            ${others.map(dwellLine)} ${view.clocks.map((clock) => clockLine(clock, view))}
          </ul>`
        : nothing
    }
  </section>`;
}
