import type { Clock } from '../voice/clock.ts';

/** People often go on right after the call sign; who waits longer than this is waiting for us, ms. */
const PATIENCE_MS = 600;

/** The answer to the bare call sign: given only to who stopped there. */
export interface Nod {
  /** The call sign was heard alone. */
  called(): void;
  /** Somebody speaks, or spoke: no answer is wanted any more. */
  spoke(): void;
}

/** Makes a nod that says so through `say`, unless somebody speaks meanwhile. */
export function makeNod(clock: Clock, say: () => void, somebodySpeaks: () => boolean): Nod {
  let cancel: () => void = () => undefined;
  return {
    called() {
      cancel();
      cancel = clock.at(clock.now() + PATIENCE_MS, () => {
        if (!somebodySpeaks()) say();
      });
    },
    spoke() {
      cancel();
    },
  };
}
