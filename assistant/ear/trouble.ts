/** What can go wrong with hearing, said so that somebody at the chair can act on it. */

export type TroubleKind =
  | 'denied'
  | 'no device'
  | 'in use'
  | 'unsupported'
  | 'lost'
  | 'muted'
  | 'silent'
  | 'clipped'
  | 'faint'
  | 'other device'
  | 'suspended'
  | 'recogniser'
  | 'wake word';

/** One trouble; it lasts until `onWell` names its kind. */
export interface EarTrouble {
  readonly kind: TroubleKind;
  /** What is wrong, one short sentence fit to be shown and said aloud. */
  readonly sentence: string;
  /** What to do about it. */
  readonly remedy: string;
  /** The machine's own words, for the record; may be empty. */
  readonly detail: string;
}

const SAYINGS: Record<TroubleKind, { readonly sentence: string; readonly remedy: string }> = {
  denied: {
    sentence: 'The microphone is not allowed.',
    remedy: "Allow the microphone in the browser's address bar; hearing starts by itself then.",
  },
  'no device': {
    sentence: 'No microphone is connected.',
    remedy: 'Plug one in; hearing starts by itself. Pedal, keys and touch work meanwhile.',
  },
  'in use': {
    sentence: 'The microphone cannot be opened; another program may hold it.',
    remedy: 'Close the other program, or choose another microphone in the system settings.',
  },
  unsupported: {
    sentence: 'This browser cannot listen here.',
    remedy: 'Open Seatcall from this machine or over https, in a current browser.',
  },
  lost: {
    sentence: 'The microphone is gone.',
    remedy: 'Plug it in again; hearing goes on by itself. Pedal, keys and touch work meanwhile.',
  },
  muted: {
    sentence: 'The microphone is muted by the system.',
    remedy: 'Unmute it in the system settings or on the headset.',
  },
  silent: {
    sentence: 'The microphone gives no sound at all.',
    remedy: 'Look for a mute switch on it, or choose another microphone.',
  },
  clipped: {
    sentence: 'The microphone is too loud.',
    remedy: 'Turn its level down, or move it away from the suction.',
  },
  faint: {
    sentence: 'Speech comes in very softly.',
    remedy: 'Wear the microphone nearer to the mouth, or turn its level up.',
  },
  'other device': {
    sentence: 'Another microphone is listening.',
    remedy: 'Plug in the chosen one, or choose another in the settings.',
  },
  suspended: {
    sentence: 'The browser has paused the sound.',
    remedy: 'Touch the screen or press the pedal once.',
  },
  recogniser: {
    sentence: 'The recogniser has stopped.',
    remedy: 'It is being started again. Pedal, keys and touch work meanwhile.',
  },
  'wake word': {
    sentence: 'The wake-word engine cannot be used.',
    remedy: 'The call sign works meanwhile.',
  },
};

/** Makes a trouble of its kind; `said` replaces the standard sentence or remedy. */
export function trouble(
  kind: TroubleKind,
  detail = '',
  said: { readonly sentence?: string; readonly remedy?: string } = {},
): EarTrouble {
  return { kind, ...SAYINGS[kind], ...said, detail };
}

/** Longer names are cut, so that the chairside screen holds them. */
const NAME_LENGTH = 36;

/** The chosen microphone, named as the browser names it, is not there, and another one listens. */
export function otherDevice(label: string): EarTrouble {
  const name = label.length > NAME_LENGTH ? `${label.slice(0, NAME_LENGTH - 1).trimEnd()}…` : label;
  return trouble('other device', label, {
    remedy: `Plug in “${name}”, or choose another in the settings.`,
  });
}

/**
 * The trouble behind an error of `getUserMedia`, by its name.
 * Names: W3C, Media Capture and Streams, section 10.3 (getUserMedia).
 */
export function microphoneTrouble(error: unknown): EarTrouble {
  const name = error instanceof Error ? error.name : '';
  const detail = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  switch (name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return trouble('denied', detail);
    case 'NotFoundError':
    case 'OverconstrainedError':
      return trouble('no device', detail);
    case 'NotReadableError':
    case 'AbortError':
      return trouble('in use', detail);
    case 'InvalidStateError':
    case 'NotSupportedError':
    case 'TypeError':
      return trouble('unsupported', detail);
    default:
      return trouble('in use', detail);
  }
}
