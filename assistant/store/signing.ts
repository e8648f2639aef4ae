import { Checkpoint, Closing } from '../../machines/contract/index.ts';
import { epitaphText, sealedText, Tombstone } from '../../machines/record/index.ts';
import type { Epitaph, Head } from '../../machines/record/index.ts';

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

/** The public half, as seals and tombstones carry it. */
async function publicKeyOf(keys: CryptoKeyPair): Promise<string> {
  const spki = await globalThis.crypto.subtle.exportKey('spki', keys.publicKey);
  return toBase64(new Uint8Array(spki));
}

async function sign(keys: CryptoKeyPair, text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  const signed = await globalThis.crypto.subtle.sign(SIGNATURE, keys.privateKey, bytes);
  return toBase64(lowerS(new Uint8Array(signed)));
}

async function seal<Kind extends 'closing' | 'checkpoint'>(
  kind: Kind,
  keys: CryptoKeyPair,
  head: Head,
  wall: string,
) {
  const publicKey = await publicKeyOf(keys);
  const body = { kind, n: head.n + 1, prev: head.digest, wall, publicKey };
  return { ...body, signature: await sign(keys, sealedText(body)) };
}

/** What stays of a record that is deleted, signed. */
export async function bury(
  keys: CryptoKeyPair,
  facts: Omit<Epitaph, 'kind' | 'publicKey'>,
): Promise<Tombstone> {
  const epitaph = { kind: 'tombstone', ...facts, publicKey: await publicKeyOf(keys) } as const;
  return Tombstone.parse({ ...epitaph, signature: await sign(keys, epitaphText(epitaph)) });
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
  return holds(body.publicKey, signature, sealedText(body));
}

/** Whether a tombstone was signed by the key it names. */
export async function checkTombstone({ signature, ...epitaph }: Tombstone): Promise<boolean> {
  return holds(epitaph.publicKey, signature, epitaphText(epitaph));
}

/** Keys kept ready: a practice has one, and reading it in takes longer than checking with it. */
const KEPT = 64;
const ready = new Map<string, Promise<CryptoKey>>();

/** The key that a seal names. @throws DOMException for what is no point on the curve. */
function keyOf(publicKey: string): Promise<CryptoKey> {
  const known = ready.get(publicKey);
  if (known !== undefined) return known;
  const { subtle } = globalThis.crypto;
  const key = subtle.importKey('spki', fromBase64(publicKey), KEY, false, ['verify']);
  const [oldest] = ready.keys();
  if (ready.size >= KEPT && oldest !== undefined) ready.delete(oldest);
  ready.set(publicKey, key);
  return key;
}

async function holds(publicKey: string, signature: string, text: string): Promise<boolean> {
  const { subtle } = globalThis.crypto;
  const bytes = fromBase64(signature);
  if (toNumber(bytes.subarray(32)) > ORDER / 2n) return false;
  try {
    const key = await keyOf(publicKey);
    return await subtle.verify(SIGNATURE, key, bytes, new TextEncoder().encode(text));
  } catch {
    // What is no point on the curve is no key.
    return false;
  }
}

/** SHA-256 of a seal's public key (its DER bytes), 64 hex digits: what a practice tells others to know its key by. */
export async function fingerprint({ publicKey }: Pick<Closing, 'publicKey'>): Promise<string> {
  const sum = await globalThis.crypto.subtle.digest('SHA-256', fromBase64(publicKey));
  return [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** {@link fingerprint} of this browser's own key. */
export async function fingerprintOf(keys: CryptoKeyPair): Promise<string> {
  return fingerprint({ publicKey: await publicKeyOf(keys) });
}
