/** The keys at the chair. A foot pedal is a keyboard with one key. */
import type { Command } from '../../machines/contract/index.ts';
import type { ChairState } from './model.ts';
import { answers, mainOffer, moreOffers, nearOffers, type Offer } from './offers.ts';

/** What of a key press matters. */
export interface KeyPress {
  /** `KeyboardEvent.key`. */
  readonly key: string;
  /** `KeyboardEvent.code`: the pedal is known by it. */
  readonly code: string;
  /** Alt, Control or Meta is down. */
  readonly modified: boolean;
  /** `button`: a control that takes space and enter itself; `text`: one that takes letters. */
  readonly on: 'page' | 'button' | 'text';
}

/** What a key asks for. */
export type KeyAct =
  | { readonly type: 'command'; readonly command: Command; readonly label: string }
  | { readonly type: 'main'; readonly command: Command; readonly label: string }
  | { readonly type: 'keys' }
  | { readonly type: 'type' };

/** Keys and what they do, as the list on the screen shows them. */
export const KEY_LIST = [
  ['Space, Enter or pedal', 'The main action: start, done, yes, resume'],
  ['Escape', 'Stop: always, also while typing'],
  ['→', 'Next step'],
  ['←', 'Back'],
  ['↑', 'Say again'],
  ['↓', 'How long left'],
  ['Y, N', 'Yes, no'],
  ['1 to 7', 'Choose a reason when one is asked for'],
  ['H', 'Hold the dwell, or go on'],
  ['+', 'Add ten seconds'],
  ['P', 'Pause, or resume'],
  ['U', 'Undo'],
  ['W', 'Why this step'],
  ['/', 'Type a command; ↑ and ↓ bring back earlier ones'],
  ['?', 'Show or hide these keys'],
] as const;

const ARROWS: Readonly<Record<string, Offer['command']>> = {
  ArrowRight: { type: 'next' },
  ArrowLeft: { type: 'back' },
  ArrowUp: { type: 'ask', about: 'repeat' },
  ArrowDown: { type: 'ask', about: 'time' },
};

const STOP: KeyAct = { type: 'command', command: { type: 'stop' }, label: 'Escape' };

/** Presses of the main key closer than this are one: a pedal bounces, and must not answer its own question. */
export const MAIN_GAP_MS = 800;

/**
 * What a press means at the chair, or null for nothing of ours.
 * `letters` false leaves letters, digits and signs to the browser; `pedal` is a code or null.
 */
export function keyAct(
  press: KeyPress,
  chair: ChairState,
  letters: boolean,
  pedal: string | null,
): KeyAct | null {
  if (press.modified) return null;
  if (press.key === 'Escape') return STOP;
  const main = mainOffer(chair);
  const toMain: KeyAct | null =
    main === null ? null : { type: 'main', command: main.command, label: main.label };
  // The pedal means the main action wherever the focus is, unless its key writes in a text field.
  if (press.code === pedal && (press.on !== 'text' || press.key.length > 1)) return toMain;
  if (press.on === 'text') return null;
  if (press.key === ' ' || press.key === 'Enter') return press.on === 'button' ? null : toMain;
  const arrow = ARROWS[press.key];
  if (arrow !== undefined) return { type: 'command', command: arrow, label: press.key };
  if (!letters) return null;
  if (press.key === '?') return { type: 'keys' };
  if (press.key === '/') return { type: 'type' };
  return letterAct(press.key.toUpperCase(), chair);
}

function letterAct(key: string, chair: ChairState): KeyAct | null {
  if (key === 'P' && chair.view.pace === 'paused') {
    return { type: 'command', command: { type: 'resume' }, label: 'P' };
  }
  const found = [...answers(chair.view.asked), ...nearOffers(chair), ...moreOffers(chair)].find(
    (candidate) => candidate.key === key,
  );
  return found === undefined ? null : { type: 'command', command: found.command, label: key };
}
