/** The command line of `hear`. */
import { parseArgs } from 'node:util';
import { ATTENTION } from '../ear/attention.ts';
import { CallSignError, readCallSign } from '../ear/held-grammar.ts';

export const HEAR_USAGE = `npm run --silent hear -- [options] CLIP.wav ...
  --json               one JSON line for each clip: clip, phrase, score, ms
  --grammar FILE.jsgf  hear what this grammar allows; without it, all of Seatcall's phrases
  --call-sign WORD     phrases follow this word (Seatcall's own: "${ATTENTION.callSign}" unless given)
  --no-call-sign       phrases stand alone (a grammar file's do unless a call sign is given)
  --print-grammar      print Seatcall's phrases as JSGF and stop
Exit: 0 done, 1 a clip could not be read, 2 the command or the grammar is wrong.
`;

/** A use that is wrong; the message says what and how it is right. */
export class WrongUse extends Error {
  override readonly name = 'WrongUse';
}

export interface HearOptions {
  readonly action: 'hear' | 'print-grammar' | 'help';
  readonly json: boolean;
  /** A JSGF file; null for Seatcall's own phrases. */
  readonly grammar: string | null;
  /** Lower case; null: phrases stand alone. */
  readonly callSign: string | null;
  readonly clips: readonly string[];
}

/** @throws WrongUse */
export function readHearOptions(args: readonly string[]): HearOptions {
  const { values, positionals: clips } = parsed(args);
  if (values['call-sign'] !== undefined && values['no-call-sign']) {
    throw new WrongUse('--call-sign and --no-call-sign exclude each other');
  }
  const grammar = values.grammar ?? null;
  const usual = grammar === null && !values['no-call-sign'] ? ATTENTION.callSign : null;
  const action = values.help ? 'help' : values['print-grammar'] ? 'print-grammar' : 'hear';
  if (action === 'hear' && clips.length === 0) throw new WrongUse('name at least one CLIP.wav');
  return {
    action,
    json: values.json,
    grammar,
    callSign: values['call-sign'] === undefined ? usual : sign(values['call-sign']),
    clips,
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: 'boolean', default: false },
        grammar: { type: 'string' },
        'call-sign': { type: 'string' },
        'no-call-sign': { type: 'boolean', default: false },
        'print-grammar': { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
  } catch (error) {
    throw new WrongUse(error instanceof Error ? error.message : String(error), { cause: error });
  }
}

function sign(word: string): string {
  try {
    return readCallSign(word);
  } catch (error) {
    if (error instanceof CallSignError) {
      throw new WrongUse(`--call-sign: ${error.message}`, { cause: error });
    }
    throw error;
  }
}
