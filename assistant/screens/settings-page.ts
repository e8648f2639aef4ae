/** What a practice sets once, the licences, and what Seatcall is not. */
import { html, nothing, type TemplateResult } from 'lit';
import { choiceField, fileField, textField, tickField } from './field.ts';
import { sheet } from './frame.ts';
import { KEY_LIST } from './keys.ts';
import type { Actions, AppState, Settings, SettingsState, WakeWordSettings } from './model.ts';
import { press } from './press.ts';
import { ownPhrases } from './own-phrases.ts';
import { shelfForm } from './shelf-form.ts';

function slider(
  id: string,
  label: string,
  shown: string,
  range: { readonly min: number; readonly max: number; readonly step: number },
  value: number,
  set: (value: number) => void,
): TemplateResult {
  return html`<div class="field">
    <label for=${id}>${label}: <output>${shown}</output></label>
    <input
      id=${id}
      type="range"
      min=${range.min}
      max=${range.max}
      step=${range.step}
      .value=${String(value)}
      @input=${(event: Event) => {
        if (event.target instanceof HTMLInputElement) set(event.target.valueAsNumber);
      }}
    />
  </div>`;
}

function callSign({ values, callSignProblem }: SettingsState, actions: Actions): TemplateResult {
  const sign = values.callSign;
  return html`<h2>Call sign</h2>
    ${textField(
      {
        path: 'callSign',
        label: 'The word that addresses Seatcall',
        hint: 'One word you do not say to patients. Two syllables or more are heard best.',
        value: sign,
        set: (value) => actions.editSettings({ callSign: value }),
      },
      callSignProblem === null ? [] : [{ field: 'callSign', message: callSignProblem }],
    )}
    <p class="note">
      Say it and the command in one breath: <q>${sign}, cleaner on</q>. Or say <q>${sign}</q>, wait
      for “Listening”, then the command. <q>Stop</q> needs no call sign.
    </p>
    ${slider(
      'follow-up',
      'After a command, take the next one without the call sign for',
      `${values.followUpS} s`,
      { min: 2, max: 20, step: 1 },
      values.followUpS,
      (followUpS) => actions.editSettings({ followUpS }),
    )}`;
}

const SYSTEMS_CHOICE = [['', 'The system’s choice']] as const;

function microphone({ values, microphones }: SettingsState, actions: Actions): TemplateResult {
  const chosen = values.microphone;
  const isAway = chosen !== null && microphones.every(({ id }) => id !== chosen.id);
  // As long as no names are known, nobody knows either what is connected.
  const away = microphones.length === 0 ? '' : ' (not connected)';
  return html`<h2>Microphone</h2>
    ${choiceField(
      {
        path: 'microphone',
        label: 'Listen with',
        hint: 'While the one chosen is not connected, the system’s choice listens, and Seatcall says so.',
        choices: [
          ...SYSTEMS_CHOICE,
          ...microphones.map(({ id, label }) => [id, label] as const),
          ...(isAway ? [[chosen.id, `${chosen.label}${away}`] as const] : []),
        ],
        value: chosen?.id ?? '',
        set: (value) => {
          const known = chosen === null ? microphones : [...microphones, chosen];
          actions.editSettings({ microphone: known.find(({ id }) => id === value) ?? null });
        },
      },
      [],
    )}
    ${
      microphones.length > 0
        ? nothing
        : html`<p class="note">The browser names the microphones when one is allowed.</p>
            <button type="button" class="act" @click=${press(() => actions.nameMicrophones())}>
              Allow and show them
            </button>`
    }`;
}

function voice({ values }: SettingsState, actions: Actions): TemplateResult {
  return html`<h2>Voice</h2>
    ${slider(
      'volume',
      'Loudness of the calls',
      `${Math.round(values.volume * 100)} %`,
      { min: 0, max: 1, step: 0.05 },
      values.volume,
      (volume) => actions.editSettings({ volume }),
    )}
    <button type="button" class="act" @click=${press(() => actions.tryVoice())}>
      Say something
    </button>`;
}

/** Keys that steer the page itself and so can be no pedal. */
const NO_PEDAL = new Set([
  'Tab',
  'Escape',
  'ShiftLeft',
  'ShiftRight',
  'ControlLeft',
  'ControlRight',
]);

function pedal({ values }: SettingsState, actions: Actions): TemplateResult {
  const taken = (event: KeyboardEvent): void => {
    if (NO_PEDAL.has(event.code) || event.code === '') return;
    event.preventDefault();
    event.stopPropagation();
    actions.editSettings({ pedalKey: event.code });
  };
  return html`<h2>Pedal and keys</h2>
    <div class="field">
      <label for="pedal">Pedal: go into the field and press it once</label>
      <input
        id="pedal"
        type="text"
        readonly
        placeholder="No pedal set"
        .value=${values.pedalKey ?? ''}
        aria-describedby="pedal-below"
        @keydown=${taken}
      />
      <p class="field-below" id="pedal-below">
        A foot pedal is a keyboard with one key. It does the main action; two presses within 0.8 s
        count as one.
      </p>
    </div>
    ${
      values.pedalKey === null
        ? nothing
        : html`<button
            type="button"
            class="act"
            @click=${press(() => actions.editSettings({ pedalKey: null }))}
          >
            No pedal
          </button>`
    }
    ${tickField(
      {
        path: 'letterKeys',
        label: 'Single letters act as commands at the chair',
        hint: 'Switch this off where letters reach the page by accident. Escape still stops.',
        value: values.letterKeys,
        set: (letterKeys) => actions.editSettings({ letterKeys }),
      },
      [],
    )}
    <details class="rare">
      <summary>All keys</summary>
      <dl class="key-list">
        ${KEY_LIST.map(
          ([key, does]) =>
            html`<div>
              <dt><kbd>${key}</kbd></dt>
              <dd>${does}</dd>
            </div>`,
        )}
      </dl>
    </details>`;
}

const YEARS = [1, 2, 3, 5, 6, 7, 8, 10, 11, 12, 15, 20, 25, 30];

function keeping({ values }: SettingsState, actions: Actions): TemplateResult {
  return html`<h2>Keeping records</h2>
    ${choiceField(
      {
        path: 'retentionYears',
        label: 'A record has to be kept after its last entry for',
        hint: 'Your local rules decide, and may count otherwise, such as from the end of treatment or from a child’s coming of age. Nothing is ever deleted by itself.',
        choices: [
          ['', 'Not set'],
          ...YEARS.map(
            (years) => [String(years), years === 1 ? '1 year' : `${years} years`] as const,
          ),
        ],
        value: values.retentionYears === null ? '' : String(values.retentionYears),
        set: (value) =>
          actions.editSettings({ retentionYears: value === '' ? null : Number(value) }),
      },
      [],
    )}`;
}

function wakeWord(wake: WakeWordSettings | null, actions: Actions): TemplateResult {
  if (wake === null) return html``;
  const set = (change: Partial<WakeWordSettings>): void =>
    actions.editSettings({ wakeWord: { ...wake, ...change } });
  return html`<details class="rare">
    <summary>Wake word by your own access key</summary>
    <p class="note">
      For practices that hold a key of the wake-word engine. It goes online to check the key; the
      call sign above works without it.
    </p>
    <div class="field">
      <label for="access-key">Access key</label>
      <input
        id="access-key"
        type="password"
        autocomplete="off"
        .value=${wake.accessKey}
        @input=${(event: Event) => {
          if (event.target instanceof HTMLInputElement) set({ accessKey: event.target.value });
        }}
      />
    </div>
    ${fileField('wake-model', `Model file (.pv): ${wake.model ?? 'none'}`, '.pv', (file) =>
      actions.loadWakeWordFile('model', file),
    )}
    ${fileField('wake-keyword', `Keyword file (.ppn): ${wake.keyword ?? 'none'}`, '.ppn', (file) =>
      actions.loadWakeWordFile('keyword', file),
    )}
    ${textField(
      {
        path: 'wake-builtin',
        label: 'Or a keyword that comes with the engine',
        hint: 'Its English name; leave this blank to use your file',
        value: wake.builtin,
        set: (builtin) => set({ builtin }),
      },
      [],
    )}
    ${slider(
      'wake-sensitivity',
      'Sensitivity',
      wake.sensitivity.toFixed(2),
      { min: 0, max: 1, step: 0.05 },
      wake.sensitivity,
      (sensitivity) => set({ sensitivity }),
    )}
  </details>`;
}

/** The settings page. */
export function settingsPage(state: AppState, actions: Actions): TemplateResult {
  const { settings } = state;
  const edit = (change: Partial<Settings>): void => actions.editSettings(change);
  return sheet(
    state,
    actions,
    'Settings',
    html`<div class="settings">
      <section aria-label="Hearing and voice">
        ${callSign(settings, actions)} ${microphone(settings, actions)} ${voice(settings, actions)}
        ${pedal(settings, actions)} ${ownPhrases(settings, actions)}
        ${wakeWord(settings.values.wakeWord, actions)} ${keeping(settings, actions)}
        <h2>About</h2>
        <p class="note">
          Numbers that were not published are marked so in every plan. The clinician decides.
          Without a record file exported, a case is kept in this browser only.
        </p>
        <details class="rare">
          <summary>Licences</summary>
          <pre class="licences" tabindex="0" aria-label="Licences">${settings.notice}</pre>
        </details>
      </section>
      <section aria-label="Shelf">
        <h2>The practice’s shelf</h2>
        ${shelfForm(settings.values.shelf, (shelf) => edit({ shelf }), settings.problems)}
      </section>
    </div>`,
  );
}
