/** A plan as the desk shows it: verdict, steps with their dwells and sources, cautions, notes. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Dwell, Mark, Plan, PlanStep, UnitPlan } from '../../machines/contract/index.ts';
import { duration, windowWords } from './format.ts';
import { icon } from './icons.ts';

const MARKS = {
  published: 'Published',
  memory: 'From memory of a published source',
  'common-practice': 'Common practice, no source',
  judgement: 'Our judgement, no source',
  computed: 'Computed',
  shelf: 'Your instructions for use',
} as const satisfies Readonly<Record<Mark, string>>;

/** Where a number comes from, in words. */
export const sourceWords = (mark: Mark, source: string): string =>
  source === '' ? MARKS[mark] : `${MARKS[mark]}: ${source}`;

const dwellText = (dwell: Dwell): TemplateResult =>
  html`<span class="plan-dwell"
    >${windowWords(dwell.minS, dwell.targetS, dwell.maxS)}
    <small>${sourceWords(dwell.mark, dwell.source)}</small></span
  >`;

const WHO = { dentist: 'Dentist', assistant: 'Assistant', both: 'Both' } as const;

const stepRow = (step: PlanStep): TemplateResult =>
  html`<li>
    <strong>${step.title}</strong> <span class="plan-who">${WHO[step.who]}</span>
    <span class="plan-todo">${step.todo}</span>
    ${step.gate === '' ? nothing : html`<span class="plan-gate">Done when: ${step.gate}</span>`}
    ${step.dwell === null ? nothing : dwellText(step.dwell)}
    ${
      step.goodFor === null
        ? nothing
        : html`<span class="plan-dwell"
            >Good for ${duration(step.goodFor.seconds)}: ${step.goodFor.lapsed}</span
          >`
    }
  </li>`;

function unitPlan(unit: UnitPlan): TemplateResult {
  const { retention, cement } = unit;
  return html`<section class="plan-unit" aria-label=${`Plan of ${unit.tooth}`}>
    <h3>
      ${unit.tooth}: ${unit.toothName}, ${unit.kind.replaceAll('-', ' ')}, ${unit.materialName}
    </h3>
    <p class="verdict ${retention.holds ? 'verdict-holds' : 'verdict-fails'}">
      ${icon(retention.holds ? 'right' : 'long')}<span>${retention.sentence}</span>
    </p>
    <details>
      <summary>The working</summary>
      <ul class="working">
        ${[...retention.working, ...unit.working].map((line) => html`<li>${line}</li>`)}
      </ul>
    </details>
    ${
      unit.never.length === 0
        ? nothing
        : html`<details>
            <summary>Never on this material (${unit.never.length})</summary>
            <ul class="working">
              ${unit.never.map(({ step, why }) => html`<li>${step.replaceAll('-', ' ')}: ${why}</li>`)}
            </ul>
          </details>`
    }
    <p>
      <b>${cement.label}</b>: seat within ${duration(cement.workingS)} of the mix, set
      ${duration(cement.settingS)} after
      it${cement.waitForSet ? '; wait for the set, light alone is not enough' : ''}.
      <small>${cement.workingFrom}</small>
    </p>
    ${
      unit.notes.length === 0
        ? nothing
        : html`<ul class="plan-notes">
            ${unit.notes.map((note) => html`<li>${note}</li>`)}
          </ul>`
    }
    <details open>
      <summary>Steps in order (${unit.steps.length})</summary>
      <ol class="plan-steps">
        ${unit.steps.map(stepRow)}
      </ol>
    </details>
    ${
      unit.spare.length === 0
        ? nothing
        : html`<details>
            <summary>Steps that come in only if something happens (${unit.spare.length})</summary>
            <ul class="plan-steps">
              ${unit.spare.map(stepRow)}
            </ul>
          </details>`
    }
  </section>`;
}

/** The whole plan. */
export function planPanel(plan: Plan): TemplateResult {
  return html`${
      plan.units.length === 1
        ? nothing
        : html`<p>
            <b>Seating order</b>: ${plan.order.map((mix) => mix.join(' with ')).join(', then ')}.
          </p>`
    }
    ${plan.expired.map(
      ({ item, lot, expires, reason }) =>
        html`<p class="verdict verdict-fails">
          ${icon('long')}<span
            >${item} (${lot}) expired on ${expires}; used because: ${reason}.</span
          >
        </p>`,
    )}
    ${plan.units.map(unitPlan)}
    <h3>Cautions</h3>
    <ul class="plan-cautions">
      ${plan.cautions.map(({ text }) => html`<li>${icon('long')}<span>${text}</span></li>`)}
    </ul>`;
}
