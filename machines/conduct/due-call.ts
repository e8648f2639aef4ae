import type { Call } from '../contract/index.ts';

/** A call and the case time, in milliseconds, at which it is due. */
export interface DueCall {
  readonly at: number;
  readonly tooth: string;
  readonly call: Call;
}
