import type { StepId, Surface } from '../../contract/index.ts';

/** The name of an activity: a step of the whole case, or one of a unit with its tooth before it. */
export const stepLabel = (tooth: string | null, step: StepId): string =>
  tooth === null ? step : `${tooth} ${step}`;

/**
 * The name of a contamination. What lands on the intaglio goes by whether the gentle cleaning takes
 * it off (`soiled`) or only the conditioning itself does (`filmed`).
 */
export const soilLabel = (tooth: string, surface: Surface, deep: boolean): string =>
  `${tooth} ${surface} ${deep ? 'filmed' : 'soiled'}`;

export const startOverLabel = (tooth: string): string => `${tooth} start over`;
