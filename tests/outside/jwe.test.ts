import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compactDecrypt, CompactEncrypt } from 'jose';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  decryptBytes,
  encryptText,
  isEncrypted,
  ITERATIONS,
  MIN_PASSPHRASE,
} from '../../assistant/store/passphrase.ts';

/**
 * RFC 7516 and 7518, by two that are not ours: a general JOSE library, and the script of
 * docs/verify.md, which writes out RFC 7518, sections 4.4, 4.8 and 5.3, with node:crypto.
 */
const PASSPHRASE = 'vier Wörter im Märzregen';
const TEXT = '{"kind":"header","note":"é€😂"}\n';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const ALG = 'PBES2-HS512+A256KW';
let sealed = '';

const Header = z.record(z.string(), z.unknown());
const headerOf = (head: string) =>
  Header.parse(JSON.parse(Buffer.from(head, 'base64url').toString('utf8')));

/** What docs/verify.md gives to strangers, run as it stands there. */
function openByHand(jwe: string, passphrase: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'seatcall-jwe-'));
  try {
    const guide = readFileSync(new URL('../../docs/verify.md', import.meta.url), 'utf8');
    const [, script = ''] = /```js\n(.*?)```/s.exec(guide) ?? [];
    writeFileSync(join(folder, 'open.mjs'), script);
    writeFileSync(join(folder, 'case.jwe'), jwe);
    return execFileSync(process.execPath, [join(folder, 'open.mjs'), join(folder, 'case.jwe')], {
      encoding: 'utf8',
      env: { ...process.env, PASSPHRASE: passphrase },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

beforeAll(async () => {
  sealed = await encryptText(TEXT, PASSPHRASE);
});

describe('a file under a passphrase', () => {
  it('says how it was made', () => {
    const [head = ''] = sealed.split('.');
    const { p2s, ...rest } = headerOf(head);
    expect(rest).toEqual({ alg: ALG, enc: 'A256GCM', cty: 'application/jsonl', p2c: 210_000 });
    expect(p2s).toMatch(/^[A-Za-z0-9_-]{22}$/);
    expect(ITERATIONS).toBe(210_000);
  });

  it('is opened by a general library', async () => {
    const { plaintext, protectedHeader } = await compactDecrypt(sealed, bytesOf(PASSPHRASE), {
      maxPBES2Count: ITERATIONS,
      keyManagementAlgorithms: [ALG],
    });
    expect(new TextDecoder().decode(plaintext)).toBe(TEXT);
    expect(protectedHeader.cty).toBe('application/jsonl');
  });

  it('is opened by the steps of the standard', () => {
    expect(openByHand(sealed, PASSPHRASE)).toBe(TEXT);
    expect(() => openByHand(sealed, 'another passphrase')).toThrow(/./);
  });

  it('made by a general library is opened here', async () => {
    const made = await new CompactEncrypt(bytesOf(TEXT))
      .setProtectedHeader({ alg: ALG, enc: 'A256GCM' })
      .setKeyManagementParameters({ p2c: 4096, p2s: bytesOf('sixteen bytes it') })
      .encrypt(bytesOf(PASSPHRASE));
    const opened = await decryptBytes(bytesOf(made), PASSPHRASE);
    expect(opened.ok && new TextDecoder().decode(opened.bytes)).toBe(TEXT);
  });

  it('opens whole or not at all: another passphrase, any part changed', async () => {
    expect(await decryptBytes(bytesOf(sealed), `${PASSPHRASE}.`)).toMatchObject({
      ok: false,
      fault: 'passphrase',
    });
    const parts = sealed.split('.');
    for (const [i, part] of parts.entries()) {
      const other = part[1] === 'A' ? 'B' : 'A';
      const changed = parts.with(i, `${part[0]}${other}${part.slice(2)}`).join('.');
      const opened = await decryptBytes(bytesOf(changed), PASSPHRASE);
      expect({ i, ok: opened.ok }).toEqual({ i, ok: false });
    }
    // The header is bound too: a member added to it is a change.
    const more = JSON.stringify({ ...headerOf(parts[0] ?? ''), kid: 'x' });
    const bound = [Buffer.from(more).toString('base64url'), ...parts.slice(1)].join('.');
    expect((await decryptBytes(bytesOf(bound), PASSPHRASE)).ok).toBe(false);
  });

  it('takes the same passphrase however its accents are typed', async () => {
    const opened = await decryptBytes(bytesOf(`${sealed}\n`), PASSPHRASE.normalize('NFD'));
    expect(opened.ok).toBe(true);
  });

  it.each([
    ['another algorithm', { alg: 'dir', enc: 'A256GCM' }],
    ['a count that would hold the page up', { alg: ALG, enc: 'A256GCM', p2c: 2_000_000_000 }],
    ['a count that protects nothing', { alg: ALG, enc: 'A256GCM', p2c: 1 }],
    ['compression', { alg: ALG, enc: 'A256GCM', p2c: 210_000, zip: 'DEF' }],
    ['what it does not understand', { alg: ALG, enc: 'A256GCM', p2c: 210_000, crit: ['b64'] }],
  ])('refuses %s without trying', async (_, header) => {
    const head = Buffer.from(JSON.stringify({ p2s: 'AAAAAAAAAAAAAAAAAAAAAA', ...header }));
    const file = [head.toString('base64url'), ...sealed.split('.').slice(1)].join('.');
    expect(isEncrypted(bytesOf(file))).toBe(true);
    expect(await decryptBytes(bytesOf(file), PASSPHRASE)).toMatchObject({
      ok: false,
      fault: 'file',
    });
  });

  it('is not made under a passphrase that is too short, and never twice alike', async () => {
    await expect(encryptText(TEXT, 'x'.repeat(MIN_PASSPHRASE - 1))).rejects.toThrow(RangeError);
    expect(await encryptText(TEXT, PASSPHRASE)).not.toEqual(sealed);
  });

  it('is told from a record', () => {
    expect(isEncrypted(bytesOf(sealed))).toBe(true);
    expect(isEncrypted(bytesOf(TEXT))).toBe(false);
    expect(isEncrypted(bytesOf('eyJ'))).toBe(false);
    expect(isEncrypted(new Uint8Array())).toBe(false);
  });
});
