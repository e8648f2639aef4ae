export { eventsSeen } from './events.ts';
export { checkFindings, Findings } from './findings.ts';
export type { FindingsProblem } from './findings.ts';
export type { WeighFacts } from './evidence.ts';
export { weigh } from './weigh.ts';
export type { Weighing } from './weigh.ts';
