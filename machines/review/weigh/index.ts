export { eventsSeen } from './events.ts';
export { SITE_WORDS } from './evidence.ts';
export { checkFindings, Findings, SITES_SEEN } from './findings.ts';
export type { FindingsProblem } from './findings.ts';
export type { WeighFacts } from './evidence.ts';
export { cutCaveat, weigh } from './weigh.ts';
export type { Weighing } from './weigh.ts';
