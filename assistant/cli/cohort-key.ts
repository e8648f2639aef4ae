import { createECDH, createHash, createHmac } from 'node:crypto';
import { Closing } from '../../machines/contract/index.ts';
import { sealedText } from '../../machines/record/index.ts';
import type { Head } from '../../machines/record/index.ts';

/** Order of the group of P-256 (FIPS 186-4, D.1.2.3). */
const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
/** What SubjectPublicKeyInfo puts before the 65 bytes of a point on P-256. */
const SPKI_HEAD = Buffer.from('3059301306072a8648ce3d020106082a8648ce3d030107034200', 'hex');

const toNumber = (bytes: Uint8Array): bigint => BigInt(`0x${Buffer.from(bytes).toString('hex')}`);
const toBytes = (value: bigint): Buffer => Buffer.from(value.toString(16).padStart(64, '0'), 'hex');
const sha256 = (text: string | Uint8Array): Buffer => createHash('sha256').update(text).digest();

/** The point of a secret number, uncompressed; the platform multiplies. */
function pointOf(secret: bigint): Buffer {
  const curve = createECDH('prime256v1');
  curve.setPrivateKey(toBytes(secret));
  return curve.getPublicKey();
}

function inverse(value: bigint): bigint {
  let [r0, r1, t0, t1] = [ORDER, ((value % ORDER) + ORDER) % ORDER, 0n, 1n];
  while (r1 > 0n) {
    const q = r0 / r1;
    [r0, r1, t0, t1] = [r1, r0 - q * r1, t1, t0 - q * t1];
  }
  return ((t0 % ORDER) + ORDER) % ORDER;
}

/** The secret number of a signature from key and digest alone (RFC 6979, 3.2; SHA-256, P-256). */
function nonceOf(key: bigint, digest: Buffer): bigint {
  const seed = Buffer.concat([toBytes(key), toBytes(toNumber(digest) % ORDER)]);
  const mac = (k: Buffer, ...parts: readonly Uint8Array[]): Buffer =>
    parts.reduce((so, part) => so.update(part), createHmac('sha256', k)).digest();
  let v: Buffer = Buffer.alloc(32, 1);
  let k = mac(Buffer.alloc(32), v, Buffer.of(0), seed);
  v = mac(k, v);
  k = mac(k, v, Buffer.of(1), seed);
  v = mac(k, v);
  for (;;) {
    v = mac(k, v);
    const nonce = toNumber(v);
    if (nonce > 0n && nonce < ORDER) return nonce;
    k = mac(k, v, Buffer.of(0));
    v = mac(k, v);
  }
}

/** ECDSA with the nonce of RFC 6979, as r and s. */
export function signOnce(key: bigint, text: string): { readonly r: bigint; readonly s: bigint } {
  const digest = sha256(text);
  const nonce = nonceOf(key, digest);
  const r = toNumber(pointOf(nonce).subarray(1, 33)) % ORDER;
  const s = (inverse(nonce) * (toNumber(digest) + r * key)) % ORDER;
  return { r, s };
}

/**
 * The key of an invented practice, worked out from its seed so that its files are the same to the
 * last byte wherever they are made. Anyone can work it out: its seal shows that a file is whole,
 * not who made it.
 */
export class InventedKey {
  readonly #key: bigint;
  readonly publicKey: string;

  constructor(seed: number) {
    this.#key = (toNumber(sha256(`seatcall invented cohort ${seed}`)) % (ORDER - 1n)) + 1n;
    this.publicKey = Buffer.concat([SPKI_HEAD, pointOf(this.#key)]).toString('base64');
  }

  /** The last line of a record whose case is over. */
  close(head: Head, wall: string): Closing {
    const { publicKey } = this;
    const body = { kind: 'closing', n: head.n + 1, prev: head.digest, wall, publicKey } as const;
    const { r, s } = signOnce(this.#key, sealedText(body));
    // Of s and its mirror only the lower is ours: see `assistant/store/signing.ts`.
    const low = s > ORDER / 2n ? ORDER - s : s;
    const signature = Buffer.concat([toBytes(r), toBytes(low)]).toString('base64');
    return Closing.parse({ ...body, signature });
  }
}
