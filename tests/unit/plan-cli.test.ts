import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Plan } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';

const call = promisify(execFile);
const plan = async (...args: string[]) => {
  try {
    const { stdout, stderr } = await call(process.execPath, [
      '--import',
      'tsx',
      'assistant/cli/plan.ts',
      ...args,
    ]);
    return { code: 0, stdout, stderr };
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && 'stdout' in error && 'stderr' in error))
      throw error;
    return { code: error.code, stdout: String(error.stdout), stderr: String(error.stderr) };
  }
};

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-plan-'));
});
afterAll(() => rm(folder, { recursive: true }));

test('a plan as JSON, and as text that fits a terminal', async () => {
  const file = 'assistant/examples/two-units.json';
  const [asJson, asText] = await Promise.all([plan(file, '--json'), plan(file)]);
  expect([asJson.code, asJson.stderr, asText.code]).toEqual([0, '', 0]);
  for (const { tooth, steps } of Plan.parse(JSON.parse(asJson.stdout)).units) {
    expect(asText.stdout).toContain(`Tooth ${tooth}`);
    for (const step of steps) expect(asText.stdout).toContain(step.title);
  }
  expect(asText.stdout.split('\n').filter((line) => line.length > 100)).toEqual([]);
});

test.each(['zirconia-46', 'disilicate-24', 'two-units'])(
  'the example %s is sound and marked invented',
  async (name) => {
    const given: unknown = JSON.parse(await readFile(`assistant/examples/${name}.json`, 'utf8'));
    const checked = checkCase(given);
    expect(checked.ok && checked.case.invented).toBe(true);
  },
);

test('wrong facts: every problem with its field, exit 2, in JSON too', async () => {
  const text = await readFile('assistant/examples/zirconia-46.json', 'utf8');
  const file = join(folder, 'wrong.json');
  await writeFile(
    file,
    text
      .replace('"46"', '"19"')
      .replace('"zirconia-3y"', '"gold"')
      .replace(/"heightMm": [\d.]+/, '"heightMm": 0'),
  );
  const told = await plan(file, '--json');
  expect(told.code).toBe(2);
  expect(told.stderr.match(/units\[0\][.\w]*/g)).toEqual([
    'units[0].tooth',
    'units[0].material',
    'units[0].prep.heightMm',
  ]);
  expect(told.stdout).toContain('19 in the Universal system is 36');
});

test('no file, no JSON, no argument, an unknown option: exit 2 and one plain sentence', async () => {
  const file = join(folder, 'broken.json');
  await writeFile(file, '{ "format": ');
  const all = await Promise.all([plan('nowhere.json'), plan(file), plan(), plan('--fast')]);
  expect(all.map(({ code }) => code)).toEqual([2, 2, 2, 2]);
  expect(all.filter(({ stderr }) => stderr === '' || stderr.includes('    at '))).toEqual([]);
});

test('the schema of a case, and the numbers with their sources', async () => {
  const schema = await plan('--schema');
  expect(JSON.parse(schema.stdout)).toMatchObject({
    type: 'object',
    required: ['format', 'reference', 'units', 'shelf'],
  });
  const sources = await plan('--sources');
  expect(sources.stdout).toContain('materials.lithium-disilicate.conditioning: 15 / 20 / 30 s');
  expect(sources.stdout).toContain('Klosa09: Klosa K');
});
