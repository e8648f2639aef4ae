import { canonical } from './canonical.ts';

/**
 * Whether `read`, which a schema made of `raw`, says all that `raw` says and nothing else of it:
 * no value changed or trimmed, no member left out. It may have members that `raw` has not: what
 * has become part of the format since, by its default. With `ordered`, whether the keys of `raw`
 * also stand in the order RFC 8785 asks for (by UTF-16 code unit). `raw` comes from JSON.parse.
 */
function agrees(raw: unknown, read: unknown, ordered: boolean): boolean {
  if (raw === read) return true;
  if (typeof raw !== 'object' || typeof read !== 'object' || raw === null || read === null)
    return false;
  if (Array.isArray(raw)) {
    if (!Array.isArray(read) || raw.length !== read.length) return false;
    for (let i = 0; i < raw.length; i += 1) if (!agrees(raw[i], read[i], ordered)) return false;
    return true;
  }
  if (Array.isArray(read)) return false;
  let before: string | null = null;
  for (const key in raw) {
    if (ordered && before !== null && key <= before) return false;
    before = key;
    if (!Object.hasOwn(read, key)) return false;
    if (!agrees(Reflect.get(raw, key), Reflect.get(read, key), ordered)) return false;
  }
  return true;
}

/** Whether every object's keys stand in the order RFC 8785 asks for. */
function inOrder(raw: unknown): boolean {
  if (typeof raw !== 'object' || raw === null) return true;
  if (Array.isArray(raw)) return raw.every(inOrder);
  let before: string | null = null;
  for (const key in raw) {
    if (before !== null && key <= before) return false;
    before = key;
    if (!inOrder(Reflect.get(raw, key))) return false;
  }
  return true;
}

/**
 * {@link canonical} of a value that came from JSON.parse, at a fraction of the cost where its keys
 * stand in order already. @throws Error as that does, for lone surrogates.
 */
export function canonicalOf(raw: unknown): string {
  const text = inOrder(raw) ? JSON.stringify(raw) : null;
  return text === null || text.includes(String.raw`\ud`) ? canonical(raw) : text;
}

/**
 * Whether `text`, which JSON.parse read as `raw` and a schema as `read`, is `canonical(raw)`, and
 * `read` says what `raw` says. A record is held to the spelling it was written in, not to the one
 * that today's schema would give it: members with defaults may have been added since.
 *
 * JSON.stringify spells numbers and strings as RFC 8785 does and takes keys as they stand: where
 * they stand in order, its text is the canonical one. Only lone surrogates differ, which it spells
 * by an escape. Whatever does not pass that way goes through {@link canonical} itself.
 */
export function isSpelled(text: string, raw: unknown, read: unknown): boolean {
  if (agrees(raw, read, true) && !text.includes(String.raw`\ud`) && JSON.stringify(raw) === text)
    return true;
  try {
    return agrees(raw, read, false) && canonical(raw) === text;
  } catch {
    return false;
  }
}
