import { parseArgs } from 'node:util';
import { PASSPHRASE_USAGE } from './ask-passphrase.ts';
import { WrongUse } from './hear-options.ts';

export const REVIEW_USAGE = `npm run --silent review -- RECORD... [options]
  RECORD              a record file, or a folder: every *.jsonl and *.jsonl.jwe in it
  --findings FILE     what was found when a restoration came off; weighed against its record
  --follow-up FILE    what recalls said (follow-up.ndjson); for the pattern over many records
  --json              one JSON object (docs/review.md):
                      {"format": "seatcall-review/1",
                       "records": [{"record", "alignment": {"cost", "fitness", "moves"},
                                    "deviations", ...}],
                       "failed": [{"record", "line", "entry", "message", "leading"}],
                       "weighing": with --findings, "pattern": with more than one record}
  --guard             would today's guard have caught it? Asked of up to twelve records anyway; of
                      more it takes about as long again as the review itself
  --schema            the JSON Schema of findings, and what each field allows
  --help              this
Every record is verified first; one that was altered is told with its entry and not reviewed. Of a file
that was cut off, what it still has is reviewed apart ("leading"), as an incomplete record.
${PASSPHRASE_USAGE}Exit: 0 all reviewed, 1 a file was not (it is named on the error output, the others are reviewed),
2 the command or the findings are wrong.
`;

export interface ReviewOptions {
  readonly action: 'review' | 'help' | 'schema';
  readonly records: readonly string[];
  readonly findings: string | null;
  readonly followUp: string | null;
  readonly json: boolean;
  /** Replay every record through today's machine, however many there are. */
  readonly guard: boolean;
}

/** @throws WrongUse naming what is wrong. */
export function readReviewOptions(args: readonly string[]): ReviewOptions {
  const { values, positionals } = parsed(args);
  const action = values.help ? 'help' : values.schema ? 'schema' : 'review';
  if (action === 'review' && positionals.length === 0)
    throw new WrongUse('name at least one RECORD');
  return {
    action,
    records: positionals,
    findings: values.findings ?? null,
    followUp: values['follow-up'] ?? null,
    json: values.json,
    guard: values.guard,
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        findings: { type: 'string' },
        'follow-up': { type: 'string' },
        json: { type: 'boolean', default: false },
        guard: { type: 'boolean', default: false },
        schema: { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
  } catch (error) {
    throw new WrongUse(error instanceof Error ? error.message : String(error));
  }
}
