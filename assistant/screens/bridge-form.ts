/** What a bridge is besides its first retainer: other retainers, pontics, connector. */
import { html, type TemplateResult } from 'lit';
import { TEETH } from '../../machines/contract/index.ts';
import { toothName } from '../../machines/form/index.ts';
import { BLANK_RETAINER, type RetainerDraft, type UnitDraft } from './draft-unit.ts';
import { choiceField, textField } from './field.ts';
import type { FieldProblem } from './problem.ts';
import { press } from './press.ts';
import { SUBSTRATE_WORDS } from './words.ts';

interface BridgeForm {
  readonly unit: UnitDraft;
  readonly at: number;
  readonly problems: readonly FieldProblem[];
  readonly set: (unit: UnitDraft) => void;
}

const TOOTH_CHOICES = TEETH.map((tooth) => [tooth, `${tooth}  ${toothName(tooth)}`] as const);

const SEAT_CHOICES = [['', 'Same as the first'], ...Object.entries(SUBSTRATE_WORDS)] as const;

const MEASURES = [
  ['heightMm', 'Prep height', 'mm'],
  ['convergenceDeg', 'Convergence', '°'],
  ['widthMm', 'Prep width', 'mm'],
] as const;

function retainerForm(
  retainer: RetainerDraft,
  base: string,
  problems: readonly FieldProblem[],
  set: (retainer: RetainerDraft) => void,
  remove: () => void,
): TemplateResult {
  return html`<div class="fields fields-numbers">
    ${choiceField(
      {
        path: `${base}.tooth`,
        label: 'Retainer',
        choices: TOOTH_CHOICES,
        none: 'Choose the tooth',
        value: retainer.tooth,
        set: (tooth) => set({ ...retainer, tooth }),
      },
      problems,
    )}
    ${choiceField(
      {
        path: `${base}.substrate`,
        label: 'Bonded to',
        choices: SEAT_CHOICES,
        value: retainer.substrate,
        set: (substrate) => set({ ...retainer, substrate }),
      },
      problems,
    )}
    ${MEASURES.map(([key, label, unit]) =>
      textField(
        {
          path: `${base}.prep.${key}`,
          label,
          unit,
          value: retainer[key],
          set: (value) => set({ ...retainer, [key]: value }),
        },
        problems,
      ),
    )}
    <button type="button" class="act" @click=${press(remove)}>Remove this retainer</button>
  </div>`;
}

/** Fields of a bridge; the unit's own tooth is its first retainer. */
export function bridgeForm({ unit, at, problems, set }: BridgeForm): TemplateResult {
  const base = `units[${at}].bridge`;
  const put = (retainers: readonly RetainerDraft[]): void => set({ ...unit, retainers });
  return html`<div class="fields">
      ${textField(
        {
          path: `${base}.pontics`,
          label: 'Pontics',
          hint: 'Teeth replaced, ISO 3950: 25, or 12 11',
          value: unit.pontics,
          set: (pontics) => set({ ...unit, pontics }),
        },
        problems,
      )}
      ${textField(
        {
          path: `${base}.connectorMm2`,
          label: 'Smallest connector',
          unit: 'mm²',
          value: unit.connectorMm2,
          set: (connectorMm2) => set({ ...unit, connectorMm2 }),
        },
        problems,
      )}
    </div>
    ${unit.retainers.map((retainer, index) =>
      retainerForm(
        retainer,
        `${base}.retainers[${index}]`,
        problems,
        (changed) => put(unit.retainers.with(index, changed)),
        () => put(unit.retainers.toSpliced(index, 1)),
      ),
    )}
    <button
      type="button"
      class="act"
      @click=${press(() => put([...unit.retainers, BLANK_RETAINER]))}
    >
      Add a retainer
    </button>`;
}
