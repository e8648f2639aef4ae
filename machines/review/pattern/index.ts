export { FollowUps } from './follow-up.ts';
export type { FollowUp } from './follow-up.ts';
export { PatternReview } from './pattern.ts';
export type { Pattern } from './pattern.ts';
