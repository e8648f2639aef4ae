/** What the keyed wake-word engine's failures mean to the practice. */
import { trouble, type EarTrouble } from '../trouble.ts';

/** What an engine error carries, whatever class it is of. */
export interface EngineFailure {
  /** The engine's status number, null when the error is not the engine's own. */
  readonly status: number | null;
  readonly message: string;
  /** False when the machine has no network. */
  readonly online: boolean;
}

/** Status numbers: `PvStatus` of @picovoice/porcupine-web 4.0.1. */
const STATUS = {
  outOfMemory: 10_001,
  io: 10_002,
  invalidArgument: 10_003,
  key: 10_005,
  activation: 10_008,
  activationLimit: 10_009,
  activationThrottled: 10_010,
  activationRefused: 10_011,
} as const;

const GOES_ON = 'The call sign works meanwhile.';

/** The trouble to show for a failure. What is not known by its number is told by its words. */
export function porcupineTrouble(failure: EngineFailure): EarTrouble {
  const say = (sentence: string, remedy: string): EarTrouble =>
    trouble('wake word', failure.message, { sentence, remedy: `${remedy} ${GOES_ON}` });
  const { status, message, online } = failure;
  // The engine names the cause in its message only; these words are looked for in it.
  const about = (words: RegExp): boolean => words.test(message);
  if (about(/access ?key/i) || status === STATUS.key)
    return say('The wake-word access key is not valid.', 'Copy the whole key into the settings.');
  if (status === STATUS.activationLimit)
    return say('The wake-word access key has reached its limit.', 'Ask the key’s issuer.');
  if (status === STATUS.activationThrottled)
    return say('The wake-word key was checked too often.', 'Try again in a minute.');
  if (status === STATUS.activationRefused)
    return say('The wake-word access key was refused.', 'Ask the key’s issuer.');
  if (status === STATUS.activation || (!online && about(/activat|fetch|network/i)))
    return say(
      'The wake-word access key could not be checked.',
      'The engine goes online for that: connect this machine once.',
    );
  if (about(/platform/i))
    return say(
      'The keyword file was made for another platform.',
      'Make it again for the web (WASM) and choose that file.',
    );
  if (about(/different version/i))
    return say(
      'The keyword or the model was made for another version of the wake-word engine.',
      'Make the keyword again for version 4 and give that file.',
    );
  if (about(/language/i))
    return say(
      'The keyword and the model are of different languages.',
      'Choose a model of the keyword’s language.',
    );
  if (status === STATUS.invalidArgument || status === STATUS.io)
    return say('The wake-word engine cannot read its files.', 'Choose the files again.');
  if (status === STATUS.outOfMemory)
    return say('There is no memory left for the wake-word engine.', 'Close other pages.');
  if (about(/not supported|unsupported/i))
    return say('The wake-word engine does not run in this browser.', 'Use a current browser.');
  return say('The wake-word engine cannot be started.', 'Look at the detail below.');
}
