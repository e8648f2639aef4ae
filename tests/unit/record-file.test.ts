import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  piecesOf,
  platformSum,
  verifyFile,
  verifySealedFile,
} from '../../assistant/cli/record-file.ts';
import { close, makeKey } from '../../assistant/store/signing.ts';
import { digestText, MAX_LINE, toJsonLines, verifyText } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const folder = mkdtempSync(join(tmpdir(), 'seatcall-record-'));
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const { header, entries, head } = sampleRecord(400);

describe('a record file on disk', () => {
  it('is verified like its text, however many pieces it is read in', async () => {
    const closing = await close(await makeKey(), head, '2026-02-03T09:15:00.000Z');
    const text = toJsonLines([header, ...entries, closing]);
    const path = fileOf('good.jsonl', text);
    expect([...piecesOf(path)].length).toBeGreaterThan(2);
    expect(verifyFile(path)).toEqual(verifyText(text));
    expect(await verifySealedFile(path)).toEqual({ ...verifyText(text), ok: true, closing });
    const forged = fileOf('forged.jsonl', text.replace('T09:15:00.000Z', 'T09:16:00.000Z'));
    expect(await verifySealedFile(forged)).toMatchObject({ ok: false, line: 402, entry: null });
  });

  it('costs no more than the limits when a line of it has 200 MB', () => {
    const path = fileOf('huge.jsonl', `${toJsonLines([header])}{"text":"`);
    truncateSync(path, 200 * 1024 * 1024);
    expect(verifyFile(path)).toMatchObject({
      ok: false,
      line: 2,
      message: `Entry 1: This line is longer than ${MAX_LINE} characters.`,
    });
  });

  it('that is not there, or a folder, is the file system’s to refuse', () => {
    expect(() => verifyFile(join(folder, 'none.jsonl'))).toThrow('ENOENT');
    expect(() => verifyFile(folder)).toThrow('EISDIR');
  });
});

describe('the platform’s SHA-256', () => {
  it('is the one in machines', () => {
    for (const text of ['', 'abc', 'é€😂'.repeat(1000), String.fromCharCode(0xd800)])
      expect(platformSum(text)).toBe(digestText(text));
  });
});
