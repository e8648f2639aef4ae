import { canonical } from './canonical.ts';

/**
 * Whether every object's keys stand in the order RFC 8785 asks for (by UTF-16 code unit), and
 * `read`, which a schema made of `raw`, says the very same: nothing trimmed, added or left out.
 * Both are JSON values; `raw` comes from JSON.parse, so it has no undefined members.
 */
function orderedAndSame(raw: unknown, read: unknown): boolean {
  if (raw === read) return true;
  if (typeof raw !== 'object' || typeof read !== 'object' || raw === null || read === null)
    return false;
  if (Array.isArray(raw)) {
    if (!Array.isArray(read) || raw.length !== read.length) return false;
    for (let i = 0; i < raw.length; i += 1) if (!orderedAndSame(raw[i], read[i])) return false;
    return true;
  }
  if (Array.isArray(read)) return false;
  let before = '';
  let first = true;
  let members = 0;
  for (const key in raw) {
    if (!first && key <= before) return false;
    before = key;
    first = false;
    members += 1;
    if (!orderedAndSame(Reflect.get(raw, key), Reflect.get(read, key))) return false;
  }
  for (const key in read) if (Reflect.get(read, key) !== undefined) members -= 1;
  return members === 0;
}

/**
 * Whether `text`, which JSON.parse read as `raw` and a schema as `read`, is `canonical(read)`.
 *
 * JSON.stringify spells numbers and strings as RFC 8785 does and takes keys as they stand: where
 * they stand in order, its text is the canonical one. Only lone surrogates differ, which it spells
 * by an escape. Whatever does not pass that way goes through {@link canonical} itself.
 */
export function isSpelled(text: string, raw: unknown, read: unknown): boolean {
  if (orderedAndSame(raw, read) && !text.includes(String.raw`\ud`) && JSON.stringify(raw) === text)
    return true;
  try {
    return canonical(read) === text;
  } catch {
    return false;
  }
}
