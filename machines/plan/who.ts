import type { CaseFile, PlanStep, StepId, Task } from '../contract/index.ts';
import type { z } from 'zod';

type Who = z.infer<typeof PlanStep>['who'];

/** What an assistant does unless the practice says otherwise; local rules decide. */
const USUAL: readonly Task[] = ['condition', 'clear', 'cure'];

const TASK_OF: Partial<Readonly<Record<StepId, Task>>> = {
  'intaglio-rinse': 'condition',
  cleaner: 'condition',
  'cleaner-rinse': 'condition',
  'acid-clean': 'condition',
  'acid-clean-rinse': 'condition',
  abrade: 'condition',
  'porcelain-etch': 'condition',
  'porcelain-etch-rinse': 'condition',
  'intaglio-dry': 'condition',
  silane: 'condition',
  'zirconia-primer': 'condition',
  'metal-primer': 'condition',
  'primer-dry': 'condition',
  'base-abrade': 'condition',
  seat: 'cement',
  flash: 'clear',
  floss: 'clear',
  residual: 'clear',
  tack: 'cure',
  'cure-occlusal': 'cure',
  'cure-buccal': 'cure',
  'cure-lingual': 'cure',
};

/** With the task allowed, cementing and residual cement stay with the dentist, the assistant helping. */
const SHARED: readonly StepId[] = ['seat', 'flash', 'floss'];

/**
 * Who does a step: the card's word, unless the case says that the assistant may or may not do
 * that kind of task. Alone, the dentist does everything.
 */
export const whoDoes = (
  step: StepId,
  usually: Who,
  { team, assistantMay }: Pick<CaseFile, 'team' | 'assistantMay'>,
): Who => {
  if (team === 'solo') return 'dentist';
  const task = TASK_OF[step];
  if (task === undefined) return usually;
  if (!(assistantMay ?? USUAL).includes(task)) return 'dentist';
  if (SHARED.includes(step)) return 'both';
  return usually;
};
