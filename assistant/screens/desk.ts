/** The desk: a case is written down and its plan seen before the patient sits down. */
import { html, nothing, type TemplateResult } from 'lit';
import { caseLists, refusedFileBox } from './case-lists.ts';
import { emptyUnit } from './draft-unit.ts';
import { choiceField, fileField, otherProblems, textField } from './field.ts';
import { count } from './format.ts';
import { sheet } from './frame.ts';
import type { Actions, AppState, DeskState } from './model.ts';
import type { FieldProblem } from './problem.ts';
import { lockedFileBox } from './passphrase-form.ts';
import { planPanel } from './plan-panel.ts';
import { press } from './press.ts';
import { roomPanel } from './room-panel.ts';
import { rolesForm } from './roles-form.ts';
import { shelfForm } from './shelf-form.ts';
import { unitForm } from './unit-form.ts';

const MAX_UNITS = 8;

/** Paths the form shows beside an input. */
const SHOWN =
  /^(?:reference|team|roomC|on|units\[\d+\]\.(?:tooth|kind|material|translucency|darkShade|thicknessMm|substrate|bonding|prep\.(?:heightMm|convergenceDeg|widthMm|groove)|bridge\.(?:pontics|connectorMm2|retainers\[\d+\]\.(?:tooth|substrate|prep\.\w+))|abutment\.\w+|provisionalCement|intaglioFromLab|fitPaste|tryInPaste|isolation|astringent|desensitiser|bleachedDaysAgo|bleachedReason|cement|countsCleanReason|belowMinimumReason)|shelf\.(?:(?:cements|numbers)\[\d+\]\.)?\w+(?:\.\w+)*)$/u;

function starts({ examples }: DeskState, actions: Actions): TemplateResult {
  return html`<div class="starts">
    ${examples.map(
      ({ id, title }) =>
        html`<button type="button" class="act" @click=${press(() => actions.loadExample(id))}>
          ${title} <span class="chip">Invented demo</span>
        </button>`,
    )}
    <button type="button" class="act" @click=${press(() => actions.clearDraft())}>
      Blank form
    </button>
    ${fileField('load-case', 'Load a case file', '.json,application/json', (file) =>
      actions.loadCase(file),
    )}
  </div>`;
}

function caseFields({ draft, problems }: DeskState, actions: Actions): TemplateResult {
  return html`<div class="fields fields-case">
    ${textField(
      {
        path: 'reference',
        label: 'Case reference',
        hint: 'Yours; no patient name',
        value: draft.reference,
        set: (reference) => actions.editDraft({ ...draft, reference }),
      },
      problems,
    )}
    ${choiceField(
      {
        path: 'team',
        label: 'Who works',
        choices: [
          ['assisted', 'Dentist and assistant'],
          ['solo', 'Dentist alone'],
        ],
        value: draft.team,
        set: (team) => actions.editDraft({ ...draft, team }),
      },
      problems,
    )}
    ${textField(
      {
        path: 'roomC',
        label: 'Room temperature',
        unit: '°C',
        hint: 'Warmer is faster',
        value: draft.roomC,
        set: (roomC) => actions.editDraft({ ...draft, roomC }),
      },
      problems,
    )}
    ${textField(
      {
        path: 'on',
        label: 'Day of appointment',
        kind: 'date',
        hint: 'Blank: the day it is opened',
        value: draft.on,
        set: (on) => actions.editDraft({ ...draft, on }),
      },
      problems,
    )}
  </div>`;
}

function units(desk: DeskState, actions: Actions): TemplateResult {
  const { draft, problems } = desk;
  const cements = draft.shelf.cements.map(({ label }) => label).filter((label) => label !== '');
  const put = (list: typeof draft.units): void => actions.editDraft({ ...draft, units: list });
  return html`${draft.units.map((unit, at) =>
    unitForm({
      unit,
      at,
      problems,
      cements,
      set: (changed) => put(draft.units.with(at, changed)),
      remove: draft.units.length > 1 ? () => put(draft.units.toSpliced(at, 1)) : null,
    }),
  )}
  ${
    draft.units.length < MAX_UNITS
      ? html`<button
          type="button"
          class="act"
          @click=${press(() => put([...draft.units, emptyUnit(cements[0] ?? '')]))}
        >
          Add a unit
        </button>`
      : nothing
  }`;
}

const ofShelf = ({ field }: FieldProblem): boolean => field.startsWith('shelf');

function planSide(desk: DeskState, actions: Actions): TemplateResult {
  const { plan, problems } = desk;
  return html`<section class="desk-plan" aria-label="Plan">
    <h2>Plan</h2>
    <div class="open-row">
      <button
        type="button"
        class="act act-main act-open"
        ?disabled=${plan === null}
        @click=${press(() => actions.openCase())}
      >
        Open case
      </button>
      <button
        type="button"
        class="act"
        ?disabled=${plan === null}
        @click=${press(() => actions.prepareCase())}
      >
        Keep for later
      </button>
      <p class="note">Opening asks for the microphone. No sound and no case leaves this machine.</p>
    </div>
    ${
      plan === null
        ? html`<p role="status">
              No plan yet: ${count(problems.length, 'thing is', 'things are')} missing or not
              allowed. Each is named beside its field.
            </p>
            ${otherProblems(problems, (path) => SHOWN.test(path))}`
        : planPanel(plan)
    }
  </section>`;
}

/** The desk page. */
export function deskPage(state: AppState, actions: Actions): TemplateResult {
  const { desk } = state;
  const { draft, problems } = desk;
  const amiss = problems.filter(ofShelf).length;
  return sheet(
    state,
    actions,
    'Desk',
    html`${desk.refusedFile === null ? nothing : refusedFileBox(desk.refusedFile, actions)}
      ${state.locked?.purpose === 'import' ? lockedFileBox(state.locked, actions) : nothing}
      <div class="desk">
        <section class="desk-cases" aria-label="Cases">
          ${caseLists(desk, actions)} ${roomPanel(state, actions)}
        </section>
        <section class="desk-form" aria-label="New case">
          <h2>
            New case ${draft.invented ? html`<span class="chip">Invented demo</span>` : nothing}
          </h2>
          ${starts(desk, actions)} ${caseFields(desk, actions)}
          ${rolesForm(draft, (next) => actions.editDraft(next))} ${units(desk, actions)}
          <details class="rare">
            <summary>
              Shelf for this case
              ${
                amiss === 0
                  ? nothing
                  : html`<span class="field-bad"
                      >${count(amiss, 'thing', 'things')} to put right</span
                    >`
              }
            </summary>
            ${shelfForm(draft.shelf, (shelf) => actions.editDraft({ ...draft, shelf }), problems, draft.on)}
          </details>
        </section>
        ${planSide(desk, actions)}
      </div>`,
  );
}
