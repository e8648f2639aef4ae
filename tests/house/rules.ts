/** The house rules that a linter sees only in part: which way arrows point, what is suppressed. */
import type { Arrow } from './modules.ts';

/** The only packages that the pure room may use. */
const PURE = ['xstate', 'zod', '@noble/hashes', 'canonicalize'];

/** Under the GPL: fine to test with, never to ship with. */
const TEST_ONLY = ['@echogarden/espeak-ng-emscripten'];

const within = (path: string, folder: string): boolean =>
  path === folder || path.startsWith(`${folder}/`);

const room = (path: string): string => path.split('/')[0] ?? '';

/** Why `arrow` may not stand; undefined when it may. */
export function broken({ from, to }: Arrow): string | undefined {
  const says = (why: string): string => `${from} -> ${to}: ${why}`;
  if (room(from) === 'tests') return undefined;
  if (within(to, 'tests')) return says('nothing imports tests');
  if (TEST_ONLY.some((name) => within(to, name))) return says('only tests may use it');
  if (room(from) === 'machines') {
    const pure = ['machines', ...PURE].some((place) => within(to, place));
    return pure ? undefined : says(`machines may import machines and ${PURE.join(', ')}`);
  }
  if (room(from) === 'prompts') {
    if (within(to, 'assistant')) return says('prompts may not know the assistant');
    if (within(to, 'machines') && !within(to, 'machines/contract')) {
      return says('prompts may know machines/contract only');
    }
  }
  return undefined;
}

/** Whether `comment` switches a check off without a reason of some length behind ` -- `. */
export function unexplained(comment: string): boolean {
  const suppresses =
    /^\s*(?:oxlint|eslint)-disable|@ts-(?:ignore|expect-error|nocheck)\b|^\s*oxfmt-ignore/u;
  return suppresses.test(comment) && !/ -- \S.{9,}/u.test(comment);
}
