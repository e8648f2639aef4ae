/**
 * What the page may load and reach: itself, and nothing else. No sound and no case leaves the
 * machine, so the browser itself is told to refuse every other host.
 *
 * The opt-in wake-word engine checks its access key with its maker's host. It runs in a worker
 * whose script alone is served with leave to go online; the page never gets that leave.
 */
const DIRECTIVES: Readonly<Record<string, string>> = {
  'default-src': "'self'",
  // The recognisers are WebAssembly; `wasm-unsafe-eval` allows compiling it, and no JavaScript eval.
  'script-src': "'self' 'wasm-unsafe-eval'",
  'worker-src': "'self' blob:",
  'connect-src': "'self' blob: data:",
  'media-src': "'self' blob: data:",
  'img-src': "'self' blob: data:",
  'style-src': "'self'",
  // Bars and meters are drawn by a number in a style attribute, which the template library writes
  // as text. Style sheets in the page stay forbidden.
  'style-src-attr': "'unsafe-inline'",
  'font-src': "'self'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
};

const spell = (directives: Readonly<Record<string, string>>): string =>
  Object.entries(directives)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

/** The policy as it stands in the built page's `<meta http-equiv>`. */
export const META_POLICY = spell(DIRECTIVES);

/** The policy as a response header; only a header can forbid framing. */
const HEADER_POLICY = spell({ ...DIRECTIVES, 'frame-ancestors': "'none'" });

/** The policy of the wake-word worker's own script, which nobody loads who has not opted in. */
const WAKE_WORD_POLICY = spell({ ...DIRECTIVES, 'connect-src': "'self' blob: data: https:" });

/** The policy header of the response to `path`. */
export const policyOf = (path: string): string =>
  /^\/assets\/wake-word\.worker-[\w-]+\.js$/u.test(path) ? WAKE_WORD_POLICY : HEADER_POLICY;

/** Headers of every response; the first two let the recogniser share memory between threads. */
export const ISOLATION_HEADERS = {
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'microphone=(self), camera=(self), geolocation=()',
} as const satisfies Readonly<Record<string, string>>;

/** How long a browser may keep a response: hashed names for a year, everything else never unasked. */
export function cacheControl(path: string): string {
  return path.startsWith('/assets/') || /^\/clips\/.*[0-9a-f]{8,}/u.test(path)
    ? 'public, max-age=31536000, immutable'
    : 'no-cache';
}
