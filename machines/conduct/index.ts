export { advance, replay } from './advance.ts';
export { opening } from './control.ts';
export { dueCalls } from './due.ts';
export type { DueCall } from './due.ts';
export { live } from './live.ts';
export type { Result } from './result.ts';
export { initialState, unitOf } from './state.ts';
export type { CaseState } from './state.ts';
export { view } from './view.ts';
