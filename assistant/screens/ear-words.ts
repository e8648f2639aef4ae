/** What the ear's state is called, and what to do about trouble. */
import type { Shape } from './icons.ts';
import type { EarTrouble, EarView, LastHeard } from './model.ts';

interface EarWords {
  readonly shape: Shape;
  /** One or two words. */
  readonly state: string;
  /** What that means for who wants to speak. */
  readonly hint: string;
}

const TROUBLE = {
  denied: 'It is not allowed. Allow the microphone for this page in the browser, then try again.',
  missing: 'None is found. Plug one in, then try again.',
  busy: 'Another program holds it. Close that program, then try again.',
  lost: 'It was unplugged. Plug it in, then try again.',
  silent: 'It gives no sound. Look for its mute switch.',
  engine: 'The recogniser did not start. Try again; keys, pedal and touch go on working.',
} as const satisfies Readonly<Record<EarTrouble, string>>;

/** The state in words, with its shape; `callSign` is what it answers to. */
export function earWords(ear: EarView, callSign: string): EarWords {
  switch (ear.kind) {
    case 'off':
      return { shape: 'off', state: 'Not listening', hint: 'Keys, pedal and touch work.' };
    case 'starting': {
      const part = ear.part === null ? '' : ` ${Math.round(ear.part * 100)} %`;
      return { shape: 'held', state: `Starting to listen${part}`, hint: 'Keys and touch work.' };
    }
    case 'asleep':
      return { shape: 'asleep', state: 'Asleep', hint: `Say “${callSign}” first` };
    case 'awake':
      return { shape: 'awake', state: 'Awake', hint: 'Say the command' };
    case 'hearing':
      return { shape: 'hearing', state: 'Hearing you', hint: 'Go on' };
    case 'speaking':
      return { shape: 'speaking', state: 'Speaking', hint: '“Stop” is heard all the time' };
    case 'trouble':
      return { shape: 'long', state: 'Microphone trouble', hint: TROUBLE[ear.trouble] };
  }
}

const BECAME = {
  accepted: { shape: 'right', words: 'taken' },
  asked: { shape: 'ask', words: 'waits for your answer' },
  refused: { shape: 'no', words: 'refused' },
  'not-understood': { shape: 'long', words: 'not understood, nothing done' },
  'not-addressed': { shape: 'asleep', words: 'not for Seatcall, nothing done' },
} as const satisfies Readonly<
  Record<LastHeard['became'], { readonly shape: Shape; readonly words: string }>
>;

/** What became of what was heard. */
export const becameWords = (
  became: LastHeard['became'],
): { readonly shape: Shape; readonly words: string } => BECAME[became];
