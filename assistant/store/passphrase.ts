/** Files under a passphrase: JSON Web Encryption in its compact form (RFC 7516, RFC 7518). */
import { z } from 'zod';

const ALG = 'PBES2-HS512+A256KW';
const ENC = 'A256GCM';
/**
 * Iterations of PBKDF2 with HMAC-SHA-512: the OWASP Password Storage Cheat Sheet's figure, which
 * it holds to be as strong as 600,000 of HMAC-SHA-256. RFC 7518 pairs only SHA-512 with a key of
 * 256 bits, the length that AES-GCM has here too.
 */
export const ITERATIONS = 210_000;
/** More is not computed: a file from elsewhere must not be able to hold the page up for minutes. */
const MOST_ITERATIONS = 2_000_000;
/** Shortest passphrase, in characters: four words, or a dozen letters drawn by chance. */
export const MIN_PASSPHRASE = 12;

const HEADER = z.object({
  alg: z.literal(ALG),
  enc: z.literal(ENC),
  p2s: z.string().regex(/^[A-Za-z0-9_-]{11,128}$/),
  p2c: z.int().min(1000).max(MOST_ITERATIONS),
  // What would change the meaning of the rest is not understood, so it must not be there (RFC 7516, 4.1.13).
  crit: z.undefined().optional(),
  zip: z.undefined().optional(),
});

/** Base64url parts, the first of which opens a JSON object. */
const COMPACT =
  /^eyJ[A-Za-z0-9_-]*\.[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+\s*$/;

const utf8 = new TextEncoder();

function toBase64url(bytes: Uint8Array): string {
  let binary = '';
  // In pieces: an argument list has its limits.
  for (let i = 0; i < bytes.length; i += 8192)
    binary += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromBase64url(text: string): Uint8Array<ArrayBuffer> {
  const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(binary, (unit) => unit.charCodeAt(0));
}

/** The key that wraps: PBKDF2 over the passphrase as it is normalised (NFC), its salt led by the name of the algorithm (RFC 7518, 4.8.1.1). */
async function wrappingKey(
  passphrase: string,
  salt: Uint8Array,
  count: number,
): Promise<CryptoKey> {
  const name = utf8.encode(`${ALG}\0`);
  const led = new Uint8Array(name.length + salt.length);
  led.set(name);
  led.set(salt, name.length);
  const base = await globalThis.crypto.subtle.importKey(
    'raw',
    utf8.encode(passphrase.normalize('NFC')),
    'PBKDF2',
    false,
    ['deriveKey'],
  );
  return globalThis.crypto.subtle.deriveKey(
    { name: 'PBKDF2', hash: 'SHA-512', salt: led, iterations: count },
    base,
    { name: 'AES-KW', length: 256 },
    false,
    ['wrapKey', 'unwrapKey'],
  );
}

/** Why a passphrase does not serve; null when it does. */
export function passphraseProblem(passphrase: string): string | null {
  return Array.from(passphrase.normalize('NFC')).length < MIN_PASSPHRASE
    ? `A passphrase has at least ${MIN_PASSPHRASE} characters: four words will do.`
    : null;
}

/**
 * Encrypts a file's text. Whoever has the passphrase opens it with any program that knows JWE;
 * nobody else does, and a lost passphrase can't be got back.
 * @throws RangeError for a passphrase that is too short.
 */
export async function encryptText(text: string, passphrase: string): Promise<string> {
  const problem = passphraseProblem(passphrase);
  if (problem !== null) throw new RangeError(problem);
  const random = (length: number) => globalThis.crypto.getRandomValues(new Uint8Array(length));
  const salt = random(16);
  const iv = random(12);
  const header = toBase64url(
    utf8.encode(
      JSON.stringify({
        alg: ALG,
        enc: ENC,
        cty: 'application/jsonl',
        p2s: toBase64url(salt),
        p2c: ITERATIONS,
      }),
    ),
  );
  const key = await globalThis.crypto.subtle.generateKey({ name: 'AES-GCM', length: 256 }, true, [
    'encrypt',
  ]);
  const wrapping = await wrappingKey(passphrase, salt, ITERATIONS);
  const wrapped = new Uint8Array(
    await globalThis.crypto.subtle.wrapKey('raw', key, wrapping, 'AES-KW'),
  );
  const gcm = { name: 'AES-GCM', iv, additionalData: utf8.encode(header) };
  const sealed = new Uint8Array(
    await globalThis.crypto.subtle.encrypt(gcm, key, utf8.encode(text)),
  );
  const parts = [wrapped, iv, sealed.subarray(0, -16), sealed.subarray(-16)];
  return [header, ...parts.map(toBase64url)].join('.');
}

/** Whether a file looks like one under a passphrase; only its beginning and its shape are looked at. */
export function isEncrypted(bytes: Uint8Array): boolean {
  // 'eyJ' is '{"' in base64: no record starts so.
  if (bytes[0] !== 0x65 || bytes[1] !== 0x79 || bytes[2] !== 0x4a) return false;
  return COMPACT.test(new TextDecoder('latin1').decode(bytes));
}

/** What came of opening a file. */
export type Opened =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  /** `passphrase`: it is not the one, or the file was changed; the two cannot be told apart. `file`: no passphrase opens it here. */
  | { readonly ok: false; readonly fault: 'passphrase' | 'file'; readonly message: string };

const NOT_OURS: Opened = {
  ok: false,
  fault: 'file',
  message: `This encrypted file is not one that Seatcall can open: it takes ${ALG} with ${ENC}.`,
};

function readHeader(text: string): z.infer<typeof HEADER> | null {
  try {
    const header: unknown = JSON.parse(new TextDecoder().decode(fromBase64url(text)));
    return HEADER.safeParse(header).data ?? null;
  } catch {
    return null;
  }
}

/** Opens a file that {@link isEncrypted}. Never throws; the file is left as it is. */
export async function decryptBytes(file: Uint8Array, passphrase: string): Promise<Opened> {
  const [head = '', ...parts] = new TextDecoder('latin1').decode(file).trim().split('.');
  const header = readHeader(head);
  if (header === null) return NOT_OURS;
  let wrapping: CryptoKey;
  let pieces: Uint8Array<ArrayBuffer>[];
  try {
    pieces = parts.map(fromBase64url);
    wrapping = await wrappingKey(passphrase, fromBase64url(header.p2s), header.p2c);
  } catch {
    return NOT_OURS;
  }
  const [wrapped, iv, sealed, tag] = pieces;
  if (!wrapped || !iv || !sealed || !tag || iv.length !== 12 || tag.length !== 16) return NOT_OURS;
  const whole = new Uint8Array(sealed.length + tag.length);
  whole.set(sealed);
  whole.set(tag, sealed.length);
  try {
    const key = await globalThis.crypto.subtle.unwrapKey(
      'raw',
      wrapped,
      wrapping,
      'AES-KW',
      'AES-GCM',
      false,
      ['decrypt'],
    );
    const gcm = { name: 'AES-GCM', iv, additionalData: utf8.encode(head) };
    return {
      ok: true,
      bytes: new Uint8Array(await globalThis.crypto.subtle.decrypt(gcm, key, whole)),
    };
  } catch {
    const message =
      'This passphrase does not open the file: it is another one, or the file was changed. Nothing was lost; try again.';
    return { ok: false, fault: 'passphrase', message };
  }
}
