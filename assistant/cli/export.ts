/** `export`: a verified record in an open format. */
import { writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { toCsv, toFhir, toPnml, toXes } from '../../machines/export/index.ts';
import type { Verified } from '../../machines/record/index.ts';
import { NotASeating } from '../../machines/review/index.ts';
import { Interrupted, PASSPHRASE_USAGE, passphraseFor } from './ask-passphrase.ts';
import { WrongUse } from './hear-options.ts';
import { verifySealedFile } from './record-file.ts';

/** Every format, by the name it is asked for. */
const FORMATS: Readonly<Record<string, (record: Verified) => string>> = {
  fhir: (record) => `${JSON.stringify(toFhir(record), null, 2)}\n`,
  xes: ({ header, entries }) => toXes(header, entries),
  pnml: ({ header }) => toPnml(header),
  csv: ({ header, entries }) => toCsv(header, entries),
};

const USAGE = `npm run --silent export -- RECORD --to ${Object.keys(FORMATS).join('|')} [--out FILE]
  RECORD      a record file; it is verified first, an altered one is not exported
  --to FORMAT fhir: HL7 FHIR R4 bundle; xes: IEEE 1849 log of one trace; pnml: the plan's net
              (ISO/IEC 15909-2); csv: one line an activity
  --out FILE  where it goes; without it, the standard output
${PASSPHRASE_USAGE}Exit: 0 done, 1 the record is altered or a file could not be read or written, 2 the command is wrong.
`;

/** Told in one line, exit 1. */
class Trouble extends Error {}

const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

function options(args: readonly string[]) {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        to: { type: 'string' },
        out: { type: 'string' },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    return { ...values, positionals };
  } catch (error) {
    throw new WrongUse(because(error));
  }
}

async function run(args: readonly string[]): Promise<void> {
  const { positionals, to, out, help } = options(args);
  if (help) {
    process.stdout.write(USAGE);
    return;
  }
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new WrongUse('name one RECORD');
  const write = to !== undefined && Object.hasOwn(FORMATS, to) ? FORMATS[to] : undefined;
  if (write === undefined) {
    throw new WrongUse(
      `--to: ${to ?? 'nothing'} is not allowed; allowed: ${Object.keys(FORMATS).join(', ')}`,
    );
  }
  const passphrase = await passphraseFor([path]);
  const verdict = await verifySealedFile(path, passphrase).catch((error: unknown) => {
    throw new Trouble(`${path}: ${because(error)}`);
  });
  if (!verdict.ok) throw new Trouble(`${path}:${verdict.line}: ${verdict.message}`);
  const text = write(verdict);
  if (out === undefined) process.stdout.write(text);
  else {
    await writeFile(out, text).catch((error: unknown) => {
      throw new Trouble(`${out}: ${because(error)}`);
    });
  }
}

process.exitCode = await run(process.argv.slice(2)).then(
  () => 0,
  (error: unknown) => {
    if (error instanceof WrongUse) {
      process.stderr.write(`export: ${error.message}\n${USAGE}`);
      return 2;
    }
    if (error instanceof Interrupted) return 130;
    if (!(error instanceof Trouble || error instanceof NotASeating)) throw error;
    process.stderr.write(`export: ${error.message}\n`);
    return 1;
  },
);
