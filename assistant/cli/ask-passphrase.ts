/** The passphrase of encrypted record files, from the terminal or the environment. */
import { StringDecoder } from 'node:string_decoder';

/** The variable that holds it where nobody sits at a terminal. */
export const PASSPHRASE_VARIABLE = 'SEATCALL_PASSPHRASE';

/** What a file says that nobody opened. */
export const NO_PASSPHRASE = `It is under a passphrase: type it at a terminal, or give it in ${PASSPHRASE_VARIABLE}.`;

/** Words for a command's help: how it is given, and what that risks. */
export const PASSPHRASE_USAGE = `A record under a passphrase (.jwe) is opened: the passphrase is asked for at the terminal and not
shown, once for all files. Without a terminal it is taken from the variable ${PASSPHRASE_VARIABLE}; other
programs of the same user can read that one, and a shell may keep the line it was typed in.
`;

/** As much of a terminal as asking without echo takes. */
export interface Terminal {
  readonly isTTY?: boolean;
  setRawMode(raw: boolean): unknown;
  on(event: 'data', heard: (piece: Buffer) => void): unknown;
  off(event: 'data', heard: (piece: Buffer) => void): unknown;
  resume(): unknown;
  pause(): unknown;
}

/** Whoever sat there wanted no more of it. */
export class Interrupted extends Error {
  override readonly name = 'Interrupted';
}

/** Ends the line: carriage return, line feed, end of transmission. */
const ENTER: readonly string[] = ['\r', '\n', '\u0004'];
/** Takes a character back: backspace, delete. */
const BACK: readonly string[] = ['\u0008', '\u007f'];

/**
 * Asks at a terminal and shows nothing of what is typed. The question goes to `say`, so that the
 * standard output stays the command's own.
 * @throws Interrupted at Ctrl-C.
 */
export async function askHidden(
  terminal: Terminal,
  say: (text: string) => void,
  question: string,
): Promise<string> {
  say(question);
  terminal.setRawMode(true);
  terminal.resume();
  try {
    return await new Promise<string>((resolve, reject) => {
      const typed: string[] = [];
      // A character of several bytes may come in two pieces.
      const utf8 = new StringDecoder('utf8');
      const heard = (piece: Buffer): void => {
        for (const character of utf8.write(piece)) {
          if (character === '\u0003') {
            terminal.off('data', heard);
            reject(new Interrupted('Nothing was done.'));
            return;
          }
          if (ENTER.includes(character)) {
            terminal.off('data', heard);
            resolve(typed.join(''));
            return;
          }
          if (BACK.includes(character)) typed.pop();
          else typed.push(character);
        }
      };
      terminal.on('data', heard);
    });
  } finally {
    terminal.setRawMode(false);
    terminal.pause();
    say('\n');
  }
}

/** The passphrase for these files; null where none is under one, or nobody can be asked. */
export async function passphraseFor(paths: readonly string[]): Promise<string | null> {
  const given = process.env[PASSPHRASE_VARIABLE];
  if (given !== undefined && given !== '') return given;
  const locked = paths.filter((path) => path.endsWith('.jwe'));
  const [first] = locked;
  if (first === undefined || !process.stdin.isTTY) return null;
  const which = locked.length === 1 ? first : `${locked.length} files`;
  const say = (text: string): void => void process.stderr.write(text);
  const typed = await askHidden(process.stdin, say, `Passphrase for ${which}: `);
  return typed === '' ? null : typed;
}
