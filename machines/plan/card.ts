import type { CautionId, StepId } from '../contract/index.ts';
import type { UnitContext } from './context.ts';

/** Words that may depend on the unit. */
export type Said = string | ((context: UnitContext) => string);

/** What a step says on a screen, and who does it where there are two. */
export interface StepCard {
  readonly title: string;
  readonly todo: Said;
  readonly gate: Said;
  readonly why: Said;
  readonly who: 'dentist' | 'assistant' | 'both';
  readonly scope: 'case' | 'unit';
  readonly cautions: readonly CautionId[] | ((context: UnitContext) => readonly CautionId[]);
}

export type Cards<Ids extends StepId> = Readonly<Record<Ids, StepCard>>;
