import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { encryptText } from '../../../assistant/store/passphrase.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { recordOfChair } from '../../seated-record.ts';

const call = promisify(execFile);
const cli = (program: 'review' | 'export', ...args: string[]) => cliWith({}, program, ...args);
const cliWith = async (env: NodeJS.ProcessEnv, program: 'review' | 'export', ...args: string[]) => {
  try {
    const { stdout, stderr } = await call(
      process.execPath,
      ['--import', 'tsx', `assistant/cli/${program}.ts`, ...args],
      { maxBuffer: 64 * 1024 * 1024, env: { ...process.env, ...env } },
    );
    return { code: 0, stdout, stderr };
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && 'stdout' in error && 'stderr' in error))
      throw error;
    return { code: error.code, stdout: String(error.stdout), stderr: String(error.stderr) };
  }
};

/** What is promised of the JSON; there is more in it. */
const Told = z.object({
  format: z.literal('seatcall-review/1'),
  records: z.array(
    z.object({
      record: z.string(),
      sealed: z.boolean(),
      alignment: z.object({
        cost: z.number(),
        fitness: z.number(),
        moves: z.array(
          z.object({
            kind: z.enum(['synchronous', 'log', 'model', 'silent']),
            activity: z.string().nullable(),
            entry: z.number().nullable(),
          }),
        ),
      }),
      deviations: z.array(
        z.object({
          grade: z.string(),
          step: z.string().nullable(),
          entries: z.array(z.number()),
          asked: z.string(),
          found: z.string(),
          source: z.string(),
        }),
      ),
    }),
  ),
  failed: z.array(
    z.object({
      record: z.string(),
      line: z.number().nullable(),
      entry: z.number().nullable(),
      message: z.string(),
      leading: z
        .object({
          cutAfter: z.number(),
          entries: z.number(),
          sealed: z.literal(false),
          alignment: z.object({ cost: z.number() }),
          deviations: z.array(z.object({ grade: z.string(), entries: z.array(z.number()) })),
        })
        .optional(),
    }),
  ),
  weighing: z.object({ ranked: z.array(z.unknown()) }).optional(),
  pattern: z.object({ records: z.number() }).optional(),
});

const PASSPHRASE = 'four words will do';
let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-review-'));
  const skipped = new Operatory(inventedCase([ZIRCONIA])).until('shade-photo');
  skipped.say({ type: 'skip', reason: 'not-available' });
  skipped.must({ type: 'confirm' }).until(null).must({ type: 'close' });
  const plain = new Operatory(inventedCase([DISILICATE], { reference: 'INVENTED-2' }));
  plain.until(null).must({ type: 'close' });
  const [one, two] = await Promise.all([recordOfChair(skipped), recordOfChair(plain)]);
  const lines = one.text.split('\n');
  await mkdir(at('many'));
  await Promise.all([
    writeFile(at('skipped.jsonl'), one.text),
    writeFile(at('plain.jsonl'), two.text),
    writeFile(at('many/one.jsonl'), one.text),
    writeFile(at('many/two.jsonl'), two.text),
    writeFile(
      at('altered.jsonl'),
      one.text.replace('"reason":"not-available"', '"reason":"not-needed"'),
    ),
    writeFile(at('cut.jsonl'), one.text.slice(0, -one.text.length / 4)),
    writeFile(at('dropped.jsonl'), [...lines.slice(0, 8), ...lines.slice(9)].join('\n')),
    writeFile(at('foreign.jsonl'), '{"hello":"world"}\n'),
    writeFile(at('latin.jsonl'), Buffer.from([0x7b, 0x22, 0xe9, 0x22, 0x3a, 0x31, 0x7d, 0x0a])),
    writeFile(at('wide.jsonl'), Buffer.from(`\ufeff${one.text}`, 'utf16le')),
    writeFile(at('deep.jsonl'), `${'['.repeat(100_000)}${']'.repeat(100_000)}\n`),
    writeFile(at('proto.jsonl'), '{"__proto__":{"kind":"header"}}\n'),
    writeFile(at('zip.jsonl'), Buffer.from([0x1f, 0x8b, 0x08, 0x00, 0x00])),
    writeFile(at('empty.jsonl'), ''),
    writeFile(at('many/three.jsonl.jwe'), await encryptText(two.text, PASSPHRASE)),
    writeFile(
      at('findings.json'),
      JSON.stringify({
        format: 'seatcall-findings/1',
        invented: true,
        tooth: '46',
        cement: 'on-tooth',
        days: 120,
      }),
    ),
    writeFile(at('wrong.json'), '{\n  "format": "seatcall-findings/1",\n  "tooth": 46\n}\n'),
  ]);
}, 60_000);
afterAll(() => rm(folder, { recursive: true }));

describe('review', () => {
  test('one record in text: what was skipped, with entry, demand and source, in under a page', async () => {
    const { code, stdout, stderr } = await cli('review', at('skipped.jsonl'));
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('NOT DONE shade photo: skipped: not available (entry 6)');
    expect(stdout).toContain('closed, chain and signature hold');
    expect(stdout).toContain('The guard of today would have refused nothing.');
    expect(stdout.split('\n').length).toBeLessThan(20);
    expect(
      stdout.split('\n').filter((line) => line.length > 120 && !line.includes(folder)),
    ).toEqual([]);
  });

  test('in JSON: cost, fitness, moves and departures, and what the findings weigh', async () => {
    const { code, stdout } = await cli(
      'review',
      at('skipped.jsonl'),
      '--findings',
      at('findings.json'),
      '--json',
    );
    expect(code).toBe(0);
    const { records, weighing, failed, pattern } = Told.parse(JSON.parse(stdout));
    const [first] = records;
    expect([records.length, failed, pattern]).toEqual([1, [], undefined]);
    expect(first?.record).toBe(at('skipped.jsonl'));
    expect(first?.alignment.cost).toBe(1);
    expect(first?.alignment.moves.filter(({ kind }) => kind === 'model')).toMatchObject([
      { activity: 'shade-photo', entry: null },
    ]);
    expect(first?.deviations).toMatchObject([
      { grade: 'not done', step: 'shade-photo', entries: [6], found: 'skipped: not available' },
    ]);
    expect(weighing?.ranked.length).toBe(7);
  });

  test('findings of a tooth that no record has are told to be weighed without one', async () => {
    const other = at('other.json');
    await writeFile(
      other,
      JSON.stringify({ format: 'seatcall-findings/1', tooth: '11', cement: 'mixed', days: 3 }),
    );
    const { stdout } = await cli('review', at('plain.jsonl'), '--findings', other);
    expect(stdout).toContain('Tooth 11 came off, without a record.');
    expect(stdout).toContain('None of the records reviewed is of tooth 11');
    // Without an event of the seating the tables give no range; their doubt does.
    expect(stdout).toMatch(/1\. consistent with: [a-z ]+: 0\.\d\d \[0\.\d\d to 0\.\d\d\]/u);
  });

  test('bad files are told with file and line, the others are reviewed, exit 1', async () => {
    const bad = [
      'altered',
      'cut',
      'dropped',
      'foreign',
      'latin',
      'wide',
      'deep',
      'proto',
      'zip',
      'empty',
    ];
    const paths = [
      ...bad.map((name) => at(`${name}.jsonl`)),
      at('nowhere.jsonl'),
      at('plain.jsonl'),
    ];
    const { code, stdout, stderr } = await cli('review', ...paths, '--json');
    expect(code).toBe(1);
    const { records, failed } = Told.parse(JSON.parse(stdout));
    expect(records.map(({ record }) => record)).toEqual([at('plain.jsonl')]);
    expect(failed.map(({ record }) => record)).toEqual(paths.slice(0, -1));
    expect(failed.slice(0, -1).every(({ line }) => line !== null && line > 0)).toBe(true);
    expect(
      failed.flatMap(({ record, leading }) => (leading === undefined ? [] : [record])),
    ).toEqual([at('cut.jsonl')]);
    expect(failed[0]).toMatchObject({ entry: 5, line: 6 });
    expect(failed[2]).toMatchObject({ entry: 8, line: 9 });
    for (const { record, line, message } of failed) {
      expect(stderr).toContain(
        line === null ? `${record}: ${message}` : `${record}:${line}: ${message}`,
      );
    }
    expect(stderr).not.toContain('    at ');
  });

  test('of a file that was cut off, what it still has is reviewed, apart, and nothing is missing that could have come', async () => {
    const { code, stdout } = await cli('review', at('cut.jsonl'), at('plain.jsonl'), '--json');
    const { records, failed, pattern } = Told.parse(JSON.parse(stdout));
    const [{ line, leading } = {}] = failed;
    expect([code, records.length, pattern?.records]).toEqual([1, 1, 1]);
    // The header is line 1, and the line that was cut is no entry any more.
    expect(leading?.cutAfter).toBe((line ?? 0) - 2);
    expect(leading?.entries).toBe(leading?.cutAfter);
    expect(leading?.alignment.cost).toBe(1);
    expect(leading?.deviations).toMatchObject([{ grade: 'not done', entries: [6] }]);
    const text = await cli('review', at('cut.jsonl'));
    expect(text.code).toBe(1);
    expect(text.stdout).toContain(`CUT OFF after entry ${leading?.cutAfter}`);
    expect(text.stdout).toContain('INCOMPLETE');
    expect(text.stderr).toContain(`Its first ${leading?.cutAfter} entries are whole`);
    const weighed = await cli('review', at('cut.jsonl'), '--findings', at('findings.json'));
    expect(weighed.stdout).toContain(`The record is cut off after entry ${leading?.cutAfter}`);
  });

  test('a folder: every record in it, those under a passphrase too, and the pattern over them', async () => {
    const env = { SEATCALL_PASSPHRASE: PASSPHRASE };
    const { code, stdout } = await cliWith(env, 'review', at('many'), '--json');
    expect(code).toBe(0);
    const { records, pattern } = Told.parse(JSON.parse(stdout));
    expect([records.length, pattern?.records]).toEqual([3, 3]);
    const [, three, two] = records;
    expect(three?.record).toBe(at('many/three.jsonl.jwe'));
    expect({ ...three, record: '' }).toEqual({ ...two, record: '' });
  });

  test('no passphrase, or another one: the file is told, the others are reviewed', async () => {
    for (const [given, told] of [
      ['', /under a passphrase: .*SEATCALL_PASSPHRASE/],
      ['another one it is', /does not open the file.*Nothing was lost/],
    ] as const) {
      const env = { SEATCALL_PASSPHRASE: given };
      const { code, stdout, stderr } = await cliWith(env, 'review', at('many'), '--json');
      const { records, failed } = Told.parse(JSON.parse(stdout));
      expect([code, records.length, failed.length]).toEqual([1, 2, 1]);
      expect(failed[0]).toMatchObject({ record: at('many/three.jsonl.jwe'), line: null });
      expect(failed[0]?.message).toMatch(told);
      expect(stderr).not.toContain(PASSPHRASE);
    }
  });

  test('wrong commands and wrong findings: exit 2 and what is allowed', async () => {
    const [bare, wrong] = await Promise.all([
      cli('review', '--fast'),
      cli('review', at('plain.jsonl'), '--findings', at('wrong.json')),
    ]);
    expect([bare.code, wrong.code]).toEqual([2, 2]);
    expect(bare.stderr).toContain('seatcall-review/1');
    expect(wrong.stderr).toContain('two digits of ISO 3950');
  });
});

describe('export', () => {
  test('to a file, and to the terminal', async () => {
    const out = at('out.xes');
    const [file, terminal] = await Promise.all([
      cli('export', at('plain.jsonl'), '--to', 'xes', '--out', out),
      cli('export', at('plain.jsonl'), '--to', 'csv'),
    ]);
    expect([file.code, file.stdout, terminal.code]).toEqual([0, '', 0]);
    expect(await readFile(out, 'utf8')).toContain('<log xes.version="1849-2016"');
    expect(terminal.stdout.split('\r\n')[1]).toContain(
      'INVENTED-2,true,1,,2026-02-03T09:00:00.000Z,2026-02-03T09:00:00.000Z,0,,case-check,Case check,,,',
    );
  });

  test('a record under a passphrase: the same file as without', async () => {
    const env = { SEATCALL_PASSPHRASE: PASSPHRASE };
    const [plain, opened, shut] = await Promise.all([
      cli('export', at('plain.jsonl'), '--to', 'csv'),
      cliWith(env, 'export', at('many/three.jsonl.jwe'), '--to', 'csv'),
      cliWith({ SEATCALL_PASSPHRASE: '' }, 'export', at('many/three.jsonl.jwe'), '--to', 'csv'),
    ]);
    expect(opened).toEqual(plain);
    expect([shut.code, shut.stdout]).toEqual([1, '']);
  });

  test('an altered record is not exported; an unknown format is named with those there are', async () => {
    const altered = await cli('export', at('altered.jsonl'), '--to', 'xes');
    expect([altered.code, altered.stdout]).toEqual([1, '']);
    expect(altered.stderr).toContain(`${at('altered.jsonl')}:6: `);
    const unknown = await cli('export', at('plain.jsonl'), '--to', 'pdf');
    expect([unknown.code, unknown.stderr.includes('fhir, xes, pnml, csv')]).toEqual([2, true]);
  });
});
