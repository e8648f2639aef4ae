/** Listens for the keys of the chair. */
import { COMMAND_LINE_ID } from './command-line.ts';
import { keyAct, type KeyPress, MAIN_GAP_MS } from './keys.ts';
import type { Actions, AppState } from './model.ts';

const TEXT_INPUTS = 'input:not([type="checkbox"], [type="range"], [type="file"]), textarea';
const BUTTONS = 'button, summary, select, a[href], input, [role="button"]';

function placeOf(target: EventTarget | null): KeyPress['on'] {
  if (!(target instanceof Element)) return 'page';
  if (target.matches(TEXT_INPUTS)) return 'text';
  return target.matches(BUTTONS) ? 'button' : 'page';
}

/**
 * Turns key presses on `target` into actions while the chair is shown. `now` gives the state as it
 * stands. Returns how to stop watching.
 */
export function watchKeys(target: Window, now: () => AppState, actions: Actions): () => void {
  let lastMain = Number.NEGATIVE_INFINITY;
  const onKey = (event: KeyboardEvent): void => {
    const { page, chair, settings, keysShown } = now();
    if (page !== 'chairside' || chair === null || event.isComposing) return;
    const press: KeyPress = {
      key: event.key,
      code: event.code,
      modified: event.altKey || event.ctrlKey || event.metaKey,
      on: placeOf(event.target),
    };
    const { letterKeys, pedalKey } = settings.values;
    const act = keyAct(press, chair, letterKeys, pedalKey);
    if (act === null) return;
    event.preventDefault();
    // A held key and a bouncing pedal are one press; else a question would be answered unread.
    if (event.repeat) return;
    switch (act.type) {
      case 'main':
        if (event.timeStamp - lastMain < MAIN_GAP_MS) return;
        lastMain = event.timeStamp;
        actions.command(act.command, 'key', act.label);
        return;
      case 'command':
        actions.command(act.command, 'key', act.label);
        return;
      case 'keys':
        actions.showKeys(!keysShown);
        return;
      case 'type':
        document.getElementById(COMMAND_LINE_ID)?.focus();
    }
  };
  target.addEventListener('keydown', onKey);
  return () => target.removeEventListener('keydown', onKey);
}
