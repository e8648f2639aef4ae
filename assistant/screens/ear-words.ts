/** What the ear's state is called, and what to do about trouble. */
import type { Shape } from './icons.ts';
import type { EarView, LastHeard } from './model.ts';

interface EarWords {
  readonly shape: Shape;
  /** A few words. */
  readonly state: string;
  /** What that means for who wants to speak. */
  readonly hint: string;
}

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
      return { shape: 'long', state: ear.sentence, hint: ear.remedy };
  }
}

const BECAME = {
  accepted: { shape: 'right', words: 'taken' },
  asked: { shape: 'ask', words: 'waits for your answer' },
  refused: { shape: 'no', words: 'refused' },
  attention: { shape: 'awake', words: 'listening' },
  'out-of-turn': { shape: 'no', words: 'not now, nothing done' },
  'not-understood': { shape: 'long', words: 'not understood, nothing done' },
  'not-addressed': { shape: 'asleep', words: 'not for Seatcall, nothing done' },
  'too-late': { shape: 'no', words: 'too late, nothing done: say it again' },
} as const satisfies Readonly<
  Record<LastHeard['became'], { readonly shape: Shape; readonly words: string }>
>;

/** What became of what was heard. */
export const becameWords = (
  became: LastHeard['became'],
): { readonly shape: Shape; readonly words: string } => BECAME[became];
