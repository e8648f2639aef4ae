import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { caseSchema, checkCase, makePlan } from '../../machines/plan/index.ts';
import { allText } from './all-text.ts';
import { planText } from './plan-text.ts';
import { sourcesText } from './sources-text.ts';

const USAGE = `npm run --silent plan -- CASE.json [--json]   the plan of a case
npm run --silent plan -- --schema             the JSON Schema of a case
npm run --silent plan -- --all                every combination's plan, in compact form
npm run --silent plan -- --sources            every number with its mark and source
Exit: 0 done, 2 the case or the command is wrong.
`;

/** A use that is wrong, told in one line. */
class WrongUse extends Error {}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

const readCase = async (file: string): Promise<unknown> => {
  const text = await readFile(file, 'utf8').catch((error: unknown) => {
    throw new WrongUse(`cannot read ${file}: ${because(error)}`);
  });
  try {
    // The result stays unknown until `checkCase` has judged it.
    const given: unknown = JSON.parse(text);
    return given;
  } catch (error) {
    throw new WrongUse(`${file} is not JSON: ${because(error)}`, { cause: error });
  }
};

const options = (args: string[]) => {
  try {
    return parseArgs({
      args,
      allowPositionals: true,
      options: {
        json: { type: 'boolean', default: false },
        schema: { type: 'boolean', default: false },
        all: { type: 'boolean', default: false },
        sources: { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
  } catch (error) {
    throw new WrongUse(`${because(error)}\n${USAGE}`, { cause: error });
  }
};

/** Runs the command; gives the exit code. */
const run = async (args: string[]): Promise<0 | 2> => {
  const { values, positionals } = options(args);
  const { stdout, stderr } = process;
  if (values.help) stdout.write(USAGE);
  else if (values.schema) stdout.write(json(caseSchema()));
  else if (values.sources) stdout.write(sourcesText());
  else if (values.all) for (const text of allText()) stdout.write(text);
  else {
    const [file, ...more] = positionals;
    if (file === undefined || more.length > 0) throw new WrongUse(`one case file\n${USAGE}`);
    const checked = checkCase(await readCase(file));
    if (!checked.ok) {
      const { problems } = checked;
      if (values.json) stdout.write(json({ problems }));
      stderr.write(
        `${file}: ${problems.length === 1 ? 'one problem' : `${problems.length} problems`}\n`,
      );
      for (const { field, message } of problems) stderr.write(`  ${field}: ${message}\n`);
      return 2;
    }
    const plan = makePlan(checked.case);
    stdout.write(values.json ? json(plan) : planText(plan));
  }
  return 0;
};

process.exitCode = await run(process.argv.slice(2)).catch((error: unknown) => {
  if (!(error instanceof WrongUse)) throw error;
  process.stderr.write(`${error.message}\n`);
  return 2;
});
