import type { Plan, UnitPlan } from '../../machines/contract/index.ts';
import { KIND_NAME } from '../../machines/plan/index.ts';
import { CEMENT_TABLE } from '../../machines/trade/index.ts';
import { wrapped } from './text.ts';

type Step = UnitPlan['steps'][number];
type Cautions = Plan['cautions'];

const said = (label: string, text: string, indent: string): string =>
  wrapped(text, `${indent}${label.padEnd(9)}`, `${indent}${' '.repeat(9)}`);

/** A dwell's window and where it comes from. */
const timeOf = ({ dwell }: Step): string | null => {
  if (dwell === null) return null;
  const { minS, targetS, maxS, holdable, from, source } = dwell;
  const window =
    maxS === null
      ? `${minS} s or longer, aim ${targetS} s`
      : `${minS} to ${maxS} s, aim ${targetS} s`;
  const counted = from === 'mix' ? ', counted from the mix' : '';
  return `${window}${counted}${holdable ? '' : ', cannot be held'}. Source: ${source}`;
};

const stepText = (step: Step, number: string, cautions: Cautions, once: Set<string>): string => {
  const indent = ' '.repeat(number.length + 1);
  const time = timeOf(step);
  const warned = step.cautions.map((id) => {
    const text = cautions.find((caution) => caution.id === id)?.text ?? id;
    const again = once.has(id);
    once.add(id);
    return said('Caution', again ? `${text.split(/[:.]/)[0] ?? id} (as above).` : text, indent);
  });
  return [
    wrapped(
      `${step.title} (${step.who}${step.scope === 'case' ? ', once for the case' : ''})`,
      `${number} `,
      indent,
    ),
    said('Do', step.todo, indent),
    ...(step.gate === '' ? [] : [said('Gate', step.gate, indent)]),
    ...(time === null ? [] : [said('Time', time, indent)]),
    ...(step.goodFor === null
      ? []
      : [
          said(
            'Good for',
            `${step.goodFor.seconds} s, then: ${step.goodFor.lapsed} Source: ${step.goodFor.source}`,
            indent,
          ),
        ]),
    said('Why', step.why, indent),
    ...warned,
  ].join('\n');
};

const unitText = (unit: UnitPlan, cautions: Cautions): string => {
  const { cement, retention } = unit;
  const once = new Set<string>();
  return [
    `== Tooth ${unit.tooth}, ${unit.toothName}: ${KIND_NAME[unit.kind]} of ${unit.materialName} ==`,
    '',
    said('Form', retention.sentence, ''),
    ...retention.working.map((line) => said('', line, '')),
    said(
      'Cement',
      `${cement.label}: ${CEMENT_TABLE[cement.class].name}${cement.carriesPhosphate ? ', carries phosphate' : ''}.`,
      '',
    ),
    said('', `Seat by ${cement.workingS} s after the mix: ${cement.workingFrom}.`, ''),
    said(
      '',
      cement.class === 'adhesive-resin-light'
        ? 'Light sets it, and nothing else does.'
        : `Sets ${cement.settingS} s after the mix${cement.waitForSet ? ': wait for it' : '; light sets it'}.`,
      '',
    ),
    ...unit.working.map((line, index) => said(index === 0 ? 'Worked' : '', line, '')),
    ...unit.never.map(({ step, why }, index) =>
      said(index === 0 ? 'Never' : '', `${step.replaceAll('-', ' ')}: ${why}`, ''),
    ),
    ...unit.notes.map((note) => said('Note', note, '')),
    '',
    'Steps',
    ...unit.steps.map((step, index) =>
      stepText(step, `${String(index + 1).padStart(2)}.`, cautions, once),
    ),
    ...(unit.spare.length === 0
      ? []
      : [
          '',
          'Only if it becomes necessary',
          ...unit.spare.map((step) => stepText(step, ' -', cautions, once)),
        ]),
  ].join('\n');
};

/** A plan as plain text for a terminal or a printer. */
export const planText = (plan: Plan): string =>
  [
    `Seating plan ${plan.reference}${plan.invented ? ' (invented)' : ''}, ${plan.team}`,
    '',
    ...plan.cautions.map(({ text }) => wrapped(text, '! ', '  ')),
    ...(plan.order.length === 0 || plan.units.length === 1
      ? []
      : [said('Order', plan.order.map((mix) => mix.join(' with ')).join(', then '), '')]),
    ...plan.expired.map(({ item, lot, expires, reason }) =>
      said('Expired', `${item} (${lot}), ${expires}, used because: ${reason}.`, ''),
    ),
    ...plan.units.flatMap((unit) => ['', unitText(unit, plan.cautions)]),
    '',
  ].join('\n');
