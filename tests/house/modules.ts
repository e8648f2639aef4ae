/** Reads every module of the repository with a real parser: what it imports, what it suppresses. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';

/** One import, export-from, dynamic import, or `new URL(…, import.meta.url)`. */
export interface Arrow {
  /** The importing file, from the repository's root. */
  readonly from: string;
  /** A file from the repository's root, or a package's or built-in's specifier. */
  readonly to: string;
}

/** One module of the repository. */
export interface Module {
  readonly file: string;
  readonly arrows: readonly Arrow[];
  readonly comments: readonly string[];
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const ROOMS = ['machines', 'prompts', 'assistant', 'tests'];

function resolved(from: string, specifier: string): string {
  const bare = specifier.replace(/\?.*$/u, '');
  return bare.startsWith('.') ? posix.join(posix.dirname(from), bare) : bare;
}

/**
 * What `source`, standing at `file`, points at.
 * @throws Error when it does not parse: an unread file must not pass for a clean one.
 */
export function readModule(file: string, source: string): Module {
  const { module, comments, errors } = parseSync(file, source);
  const [error] = errors;
  if (error !== undefined) throw new Error(`${file}: ${error.message}`);
  const specifiers: string[] = module.staticImports.map((found) => found.moduleRequest.value);
  for (const { entries } of module.staticExports) {
    for (const { moduleRequest } of entries) {
      if (moduleRequest !== null) specifiers.push(moduleRequest.value);
    }
  }
  for (const { moduleRequest } of module.dynamicImports) {
    const text = source.slice(moduleRequest.start, moduleRequest.end);
    const literal = /^['"`]([^$]*)['"`]$/u.exec(text)?.[1];
    if (literal !== undefined) specifiers.push(literal);
  }
  for (const [, path] of source.matchAll(
    /new URL\(\s*['"]([^'"]+)['"],\s*import\.meta\.url\s*,?\s*\)/gu,
  )) {
    if (path !== undefined) specifiers.push(path);
  }
  return {
    file,
    arrows: specifiers.map((specifier) => ({ from: file, to: resolved(file, specifier) })),
    comments: comments.map((comment) => comment.value),
  };
}

/** Every TypeScript module of the four rooms, in path order. */
export function allModules(): readonly Module[] {
  return ROOMS.flatMap((room) =>
    readdirSync(join(ROOT, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .toSorted()
      .map((name) => {
        const file = posix.join(room, name.replaceAll('\\', '/'));
        return readModule(file, readFileSync(join(ROOT, file), 'utf8'));
      }),
  );
}
