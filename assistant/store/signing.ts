import { Checkpoint, Closing } from '../../machines/contract/index.ts';
import { sealedText } from '../../machines/record/index.ts';
import type { Head } from '../../machines/record/index.ts';

const KEY = { name: 'ECDSA', namedCurve: 'P-256' } as const;
const SIGNATURE = { name: 'ECDSA', hash: 'SHA-256' } as const;

/** Order of the group of P-256 (FIPS 186-4, D.1.2.3). */
const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;

function toBase64(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes));
}

function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (unit) => unit.charCodeAt(0));
}

function toNumber(bytes: Uint8Array): bigint {
  return bytes.reduce((sum, byte) => (sum << 8n) | BigInt(byte), 0n);
}

function toBytes(value: bigint, length: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(length);
  for (let i = length - 1, rest = value; i >= 0; i -= 1, rest >>= 8n)
    bytes[i] = Number(rest & 255n);
  return bytes;
}

/** With (r, s), (r, order - s) is a signature too; only the lower s is ours, so that no seal has a second spelling. */
function lowerS(signature: Uint8Array): Uint8Array {
  const s = toNumber(signature.subarray(32));
  const out = Uint8Array.from(signature);
  if (s > ORDER / 2n) out.set(toBytes(ORDER - s, 32), 32);
  return out;
}

/** A new signing key of this browser; its private half cannot be read out. Kept by the store. */
export function makeKey(): Promise<CryptoKeyPair> {
  return globalThis.crypto.subtle.generateKey(KEY, false, ['sign', 'verify']);
}

async function seal<Kind extends 'closing' | 'checkpoint'>(
  kind: Kind,
  keys: CryptoKeyPair,
  head: Head,
  wall: string,
) {
  const { subtle } = globalThis.crypto;
  const publicKey = toBase64(new Uint8Array(await subtle.exportKey('spki', keys.publicKey)));
  const body = { kind, n: head.n + 1, prev: head.digest, wall, publicKey };
  const text = new TextEncoder().encode(sealedText(body));
  const signed = new Uint8Array(await subtle.sign(SIGNATURE, keys.privateKey, text));
  return { ...body, signature: toBase64(lowerS(signed)) };
}

/** The last line of a record whose case is over. `wall`: ISO 8601 in UTC. */
export async function close(keys: CryptoKeyPair, head: Head, wall: string): Promise<Closing> {
  return Closing.parse(await seal('closing', keys, head, wall));
}

/** The last line of the file of a case that goes on. `wall`: ISO 8601 in UTC. */
export async function checkpoint(
  keys: CryptoKeyPair,
  head: Head,
  wall: string,
): Promise<Checkpoint> {
  return Checkpoint.parse(await seal('checkpoint', keys, head, wall));
}

/**
 * Whether the seal was signed by the key it names. That the key is the practice's own, its
 * {@link fingerprint} tells. Runs in a browser and in Node.
 */
export async function checkSignature({
  signature,
  ...body
}: Closing | Checkpoint): Promise<boolean> {
  const { subtle } = globalThis.crypto;
  const bytes = fromBase64(signature);
  if (toNumber(bytes.subarray(32)) > ORDER / 2n) return false;
  try {
    const key = await subtle.importKey('spki', fromBase64(body.publicKey), KEY, false, ['verify']);
    return await subtle.verify(SIGNATURE, key, bytes, new TextEncoder().encode(sealedText(body)));
  } catch {
    // What is no point on the curve is no key.
    return false;
  }
}

/** SHA-256 of a seal's public key (its DER bytes), 64 hex digits: what a practice tells others to know its key by. */
export async function fingerprint({ publicKey }: Closing | Checkpoint): Promise<string> {
  const sum = await globalThis.crypto.subtle.digest('SHA-256', fromBase64(publicKey));
  return [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
