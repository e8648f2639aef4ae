/** What the page and the metronome's worker say to each other. */

/** The page asks to be woken in `delayMs`, or no longer. */
export type MetronomeRequest =
  | { readonly type: 'wake'; readonly id: number; readonly delayMs: number }
  | { readonly type: 'forget'; readonly id: number };

/** The worker wakes the page. */
export interface MetronomeReply {
  readonly id: number;
}
