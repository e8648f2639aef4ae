import { beforeAll, describe, expect, it } from 'vitest';
import {
  checkpoint,
  checkSignature,
  close,
  fingerprint,
  makeKey,
} from '../../assistant/store/signing.ts';
import type { Closing } from '../../machines/contract/index.ts';
import { sampleRecord } from '../record-maker.ts';

const { head } = sampleRecord(2);
const WALL = '2026-02-03T09:15:00.000Z';
const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
let keys: CryptoKeyPair;
let closing: Closing;

beforeAll(async () => {
  keys = await makeKey();
  closing = await close(keys, head, WALL);
});

describe('seal', () => {
  it('follows the head, and holds', async () => {
    const { kind, n, prev, wall } = closing;
    expect({ kind, n, prev, wall }).toEqual({
      kind: 'closing',
      n: 3,
      prev: head.digest,
      wall: WALL,
    });
    expect(await checkSignature(closing)).toBe(true);
    expect(await checkSignature(await checkpoint(keys, head, WALL))).toBe(true);
  });

  it('does not hold for anything else it could say', async () => {
    const other = await close(await makeKey(), head, WALL);
    const changed = [
      { n: 4 },
      { prev: 'f'.repeat(64) },
      { wall: '2026-02-03T09:15:00.001Z' },
      { publicKey: other.publicKey },
      { signature: other.signature },
      { kind: 'checkpoint' as const },
      { publicKey: closing.publicKey.replace(/.{8}.==$/, 'AAAAAAAAA==') },
    ];
    const held = await Promise.all(changed.map((some) => checkSignature({ ...closing, ...some })));
    expect(held).toEqual(changed.map(() => false));
  });

  it('has one spelling: the other s of the same signature is refused', async () => {
    const bytes = Buffer.from(closing.signature, 'base64');
    const s = BigInt(`0x${bytes.subarray(32).toString('hex')}`);
    expect(s <= ORDER / 2n).toBe(true);
    const twin = Buffer.concat([
      bytes.subarray(0, 32),
      Buffer.from((ORDER - s).toString(16).padStart(64, '0'), 'hex'),
    ]).toString('base64');
    const verified = await crypto.subtle.verify(
      { name: 'ECDSA', hash: 'SHA-256' },
      keys.publicKey,
      Buffer.from(twin, 'base64'),
      new TextEncoder().encode(
        `{"kind":"closing","n":3,"prev":"${head.digest}","publicKey":"${closing.publicKey}","wall":"${WALL}"}`,
      ),
    );
    expect(verified).toBe(true);
    expect(await checkSignature({ ...closing, signature: twin })).toBe(false);
  });

  it('never lets the private key out', async () => {
    expect(keys.privateKey.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('pkcs8', keys.privateKey)).rejects.toThrow(
      'not extractable',
    );
  });

  it('names its key by a fingerprint', async () => {
    const der = Buffer.from(closing.publicKey, 'base64');
    const { createHash } = await import('node:crypto');
    expect(await fingerprint(closing)).toEqual(createHash('sha256').update(der).digest('hex'));
  });
});
