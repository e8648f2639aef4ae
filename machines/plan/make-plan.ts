import type { z } from 'zod';
import { CAUTIONS } from '../contract/index.ts';
import type {
  CaseFile,
  CautionId,
  Plan,
  PlanStep as PlanStepSchema,
  StepId,
  UnitFacts,
  UnitPlan,
} from '../contract/index.ts';
import { toothName } from '../form/index.ts';
import { CAUTION_TEXTS, tradeOf } from '../trade/index.ts';
import type { Trade } from '../trade/index.ts';
import type { Said } from './card.ts';
import { CARDS } from './cards.ts';
import { unitContext } from './context.ts';
import type { UnitContext } from './context.ts';
import { dwellOf } from './dwell.ts';
import { expiredInUse } from './expiry.ts';
import { freshFor } from './fresh.ts';
import { seatText } from './seat-text.ts';
import { forKind } from './noun.ts';
import { notesOf } from './notes.ts';
import { seatingOrder } from './order.ts';
import { plannedSteps, spareSteps } from './steps.ts';
import { whoDoes } from './who.ts';
import { workingOf } from './working.ts';

type PlanStep = z.infer<typeof PlanStepSchema>;

const ALWAYS: readonly CautionId[] = ['not-a-device', 'roles'];

const stepOf = (id: StepId, context: UnitContext, all: readonly StepId[]): PlanStep => {
  const card = CARDS[id];
  const text = (field: 'todo' | 'gate' | 'why'): string => {
    const said: Said = card[field];
    const told = seatText(id, field, context) ?? (typeof said === 'string' ? said : said(context));
    return forKind(told, context.unit.kind);
  };
  return {
    id,
    title: forKind(card.title, context.unit.kind),
    todo: text('todo'),
    gate: text('gate'),
    why: text('why'),
    who: whoDoes(id, card.who, context.caseFile),
    dwell: dwellOf(id, context),
    goodFor: freshFor(id, context, all),
    cautions: [...(typeof card.cautions === 'function' ? card.cautions(context) : card.cautions)],
    scope: card.scope,
  };
};

const unitPlan = (caseFile: CaseFile, unit: UnitFacts, trade: Trade): UnitPlan[] => {
  const context = unitContext(caseFile, unit, trade);
  if (context === null) return [];
  const { cement, clock, material, retention, waitForSet } = context;
  const planned = plannedSteps(context);
  const spare = spareSteps(context, planned);
  const all = [...planned, ...spare];
  return [
    {
      tooth: unit.tooth,
      toothName: toothName(unit.tooth),
      kind: unit.kind,
      material: unit.material,
      materialName: material.name,
      retention,
      cement: {
        label: cement.label,
        class: cement.class,
        carriesPhosphate: cement.carriesPhosphate,
        workingS: clock.workingS,
        workingFrom: clock.workingFrom,
        settingS: clock.settingS,
        waitForSet,
      },
      steps: planned.map((id) => stepOf(id, context, all)),
      spare: spare.map((id) => stepOf(id, context, all)),
      working: workingOf(context),
      never: material.forbidden.map(({ step, why }) => ({ step, why })),
      notes: notesOf(context, planned),
    },
  ];
};

/**
 * Case facts and shelf to a plan, units in the order given. Throws nothing for a case that
 * `checkCase` lets through; a unit whose cement is not on the shelf has no plan.
 */
export const makePlan = (caseFile: CaseFile): Plan => {
  const trade = tradeOf(caseFile.shelf.numbers);
  const units = caseFile.units.flatMap((unit) => unitPlan(caseFile, unit, trade));
  const raised = new Set([
    ...ALWAYS,
    ...units.flatMap(({ steps, spare }) => [...steps, ...spare].flatMap((step) => step.cautions)),
  ]);
  return {
    format: 'seatcall-plan/1',
    reference: caseFile.reference,
    invented: caseFile.invented,
    team: caseFile.team,
    cautions: CAUTIONS.filter((id) => raised.has(id)).map((id) => ({
      id,
      text: CAUTION_TEXTS[id],
    })),
    units,
    order: seatingOrder(caseFile, trade),
    expired: expiredInUse(caseFile),
  };
};
