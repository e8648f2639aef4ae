/** `cohort`: an invented practice as record files, with what recalls said later. */
import { fork } from 'node:child_process';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Share, Written, writeShare } from './cohort-write.ts';
import { WrongUse } from './hear-options.ts';

const USAGE = `npm run --silent cohort -- --count N --seed S --out DIR
  --count N   records, 1 to 1000000
  --seed S    0 to 4294967295; the same seed gives the same files to the last byte
  --out DIR   an empty folder, or one that is not there yet
Writes an invented practice: one record file an appointment (*.jsonl), and follow-up.ndjson.
Exit: 0 done, 1 a file could not be written, 2 the command is wrong.
`;

/** What recalls said, beside the records; not called .jsonl, which every record is. */
const FOLLOW_UP = 'follow-up.ndjson';
/** Fewer records than this are written before a second process would have started. */
const WORTH_PROCESSES = 120;

const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

function whole(name: string, value: string | undefined, low: number, high: number): number {
  const number = Number(value);
  if (value === undefined || value.trim() === '' || !Number.isInteger(number))
    throw new WrongUse(`--${name}: a whole number from ${low} to ${high}`);
  if (number < low || number > high)
    throw new WrongUse(`--${name}: ${value} is not allowed; allowed: ${low} to ${high}`);
  return number;
}

/** @throws WrongUse naming what is wrong. */
function readOptions(args: readonly string[]) {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { count: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' } },
    });
    const { out } = values;
    if (out === undefined || out === '') throw new WrongUse('--out names no folder');
    const count = whole('count', values.count, 1, 1_000_000);
    return { count, seed: whole('seed', values.seed, 0, 4_294_967_295), out };
  } catch (error) {
    if (error instanceof WrongUse) throw error;
    throw new WrongUse(because(error));
  }
}

/** Writes a share in a process of its own. @throws Error when it ends without having done so. */
function apart(share: Share): Promise<Written> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('cohort-write.ts', import.meta.url)));
    child.once('message', (message: unknown) => resolve(Written.parse(message)));
    child.once('error', reject);
    child.once('exit', () => reject(new Error('A share of the records was not written.')));
    child.send(share);
  });
}

async function cohort({ count, seed, out }: ReturnType<typeof readOptions>): Promise<void> {
  await mkdir(out, { recursive: true });
  if ((await readdir(out)).length > 0)
    throw new WrongUse(`--out: ${out} is not empty; two cohorts must not mix`);
  const processes = count < WORTH_PROCESSES ? 1 : Math.min(8, availableParallelism());
  const shares = Array.from({ length: processes }, (_, from) => ({
    seed,
    haste: 1,
    count,
    from,
    step: processes,
    out,
  }));
  const [first, ...rest] = shares;
  const others = rest.map(apart);
  const written = [first === undefined ? [] : writeShare(first), ...(await Promise.all(others))];
  const lines = written
    .flat()
    .toSorted(([one], [other]) => one - other)
    .map(([, line]) => line);
  const header = JSON.stringify({ format: 'seatcall-follow-up/1', invented: true });
  await writeFile(join(out, FOLLOW_UP), `${[header, ...lines].join('\n')}\n`);
  process.stdout.write(
    `${count} invented records and the follow-up of their crowns (${lines.length} lines, ${FOLLOW_UP}) in ${out}\n`,
  );
}

try {
  await cohort(readOptions(process.argv.slice(2)));
} catch (error) {
  if (error instanceof WrongUse) {
    process.stderr.write(`cohort: ${error.message}\n${USAGE}`);
    process.exitCode = 2;
  } else if (error instanceof Error && 'code' in error) {
    process.stderr.write(`cohort: ${error.message}\n`);
    process.exitCode = 1;
  } else throw error;
}
