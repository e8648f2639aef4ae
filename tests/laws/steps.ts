import type { StepId } from '../../machines/contract/index.ts';

/** For outside the mouth only. Phosphoric acid on the inner surface is kept with them. */
export const agents: readonly StepId[] = ['cleaner', 'acid-clean', 'porcelain-etch', 'abrade'];
export const primers: readonly StepId[] = ['silane', 'zirconia-primer', 'metal-primer'];
export const light: readonly StepId[] = ['cure-occlusal', 'cure-buccal', 'cure-lingual'];
