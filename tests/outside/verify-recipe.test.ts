import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { env } from 'node:process';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deleteCase, exportLedger } from '../../assistant/store/deletion.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { checkpoint, close, fingerprint, makeKey } from '../../assistant/store/signing.ts';
import type { Closing } from '../../machines/contract/index.ts';
import { caseIdOf, toJsonLines } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

/** The recipe that a stranger is given, run as it stands there, with the real tools. */
const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const RECIPES = [
  ...readFileSync(join(ROOT, 'docs/verify.md'), 'utf8').matchAll(/```bash\n(.*?)```/gs),
];
const [check = '', canonicaliser = '', ledgerCheck = ''] = RECIPES.map(
  ([, script]) => script ?? '',
);
const TOOLS = ['bash', 'openssl', 'sha256sum', 'base64', 'od', 'sed'];
const missing = TOOLS.filter((tool) => spawnSync('which', [tool]).status !== 0);

const WALL = '2026-02-03T09:15:00.000Z';
const { header, entries, head } = sampleRecord(8);
const folder = mkdtempSync(join(tmpdir(), 'seatcall-verify-'));
let closing: Closing;
let file = '';

function run(script: string, text: string): { said: string; status: number | null } {
  const path = join(folder, 'record.jsonl');
  writeFileSync(path, text);
  writeFileSync(join(folder, 'check.sh'), script);
  const { stdout, stderr, status } = spawnSync('bash', [join(folder, 'check.sh'), path], {
    encoding: 'utf8',
    env: { ...env, CANONICALIZE: join(ROOT, 'node_modules/.bin/canonicalize') },
  });
  return { said: (stdout + stderr).trim(), status };
}

beforeAll(async () => {
  closing = await close(await makeKey(), head, WALL);
  file = toJsonLines([header, ...entries, closing]);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe.skipIf(missing.length > 0)('docs/verify.md, with openssl and sha256sum', () => {
  it('says that a closed record holds, and names the key', async () => {
    expect(run(check, file)).toEqual({
      said: `The chain and the signature hold: 8 entries.\nSigned by the key with this fingerprint: ${await fingerprint(closing)}`,
      status: 0,
    });
  });

  it('takes ten signatures of ten keys, made here, verified by openssl', async () => {
    const keys = await Promise.all(Array.from({ length: 10 }, makeKey));
    const seals = await Promise.all(keys.map((key) => checkpoint(key, head, WALL)));
    const codes = seals.map((seal) => run(check, toJsonLines([header, ...entries, seal])).status);
    expect(codes).toEqual(seals.map(() => 0));
  });

  it('says that an unsigned record is not signed', () => {
    expect(run(check, toJsonLines([header, ...entries]))).toEqual({
      said: 'The chain holds: 8 entries. NOT SIGNED: its end could have been cut or changed.',
      status: 0,
    });
  });

  it.each([
    [
      'an edit',
      (lines: string[]) => lines.with(3, (lines[3] ?? '').replace('"tooth":"46"', '"tooth":"47"')),
      'entry 3 (0: the header) or entry 4 was changed',
    ],
    [
      'another plan',
      (lines: string[]) => lines.with(0, (lines[0] ?? '').replace('"minS":20', '"minS":10')),
      'entry 0 (0: the header) or entry 1 was changed',
    ],
    [
      'a line left out',
      (lines: string[]) => lines.toSpliced(5, 1),
      'entry 5 is missing, or stands elsewhere',
    ],
    [
      'two lines that changed places',
      (lines: string[]) => lines.with(2, lines[4] ?? '').with(4, lines[2] ?? ''),
      'entry 2 is missing, or stands elsewhere',
    ],
    [
      'another closing time',
      (lines: string[]) => lines.with(9, (lines[9] ?? '').replace('09:15', '09:16')),
      'the last line was changed: its signature does not fit',
    ],
    [
      'a cut',
      (lines: string[]) => lines.slice(0, -1).with(9, (lines[9] ?? '').slice(0, -40)),
      'the file was cut off in its last line',
    ],
  ])('finds %s', (_, change, said) => {
    const altered = change(file.split('\n')).join('\n');
    expect(altered).not.toEqual(file);
    const got = run(check, altered);
    expect(got.said).toContain(`REFUSED: ${said}`);
    expect(got.status).toBe(1);
  });

  it('finds every line canonical by a canonicaliser, and one that is not', () => {
    expect(run(canonicaliser, file)).toEqual({ said: '', status: 0 });
    const spaced = file.replace('"n":2', '"n": 2');
    expect(run(canonicaliser, spaced).said).toBe('line 3 is not canonical');
  });

  it('says that a list of deletions holds, and finds one that was changed, moved or left out', async () => {
    const store = new MemoryStore();
    for (const reference of ['a', 'b', 'c']) {
      const { header: one, entries: some } = sampleRecord(2, reference);
      await store.putRecord(one, some);
      await deleteCase(store, caseIdOf(one), 'retention-over', WALL);
    }
    const { text } = await exportLedger(store, WALL);
    expect(run(ledgerCheck, text)).toEqual({ said: 'The list holds: 3 deletions.', status: 0 });
    const lines = text.split('\n');
    const changes: readonly (readonly [string, string])[] = [
      [text.replace('"n":2', '"n":3'), 'deletion 2 was changed or left out'],
      [lines.toSpliced(1, 1).join('\n'), 'deletion 2 was changed or left out'],
      [
        lines.with(2, (lines[2] ?? '').replace('retention-over', 'asked-for')).join('\n'),
        'deletion 3 was changed: its signature does not fit',
      ],
    ];
    for (const [altered, said] of changes) {
      expect(altered).not.toEqual(text);
      expect(run(ledgerCheck, altered).said).toContain(`REFUSED: ${said}`);
    }
  });

  it('was run with a real openssl', () => {
    expect(execFileSync('openssl', ['version'], { encoding: 'utf8' })).toMatch(
      /^(OpenSSL|LibreSSL) /,
    );
  });
});
