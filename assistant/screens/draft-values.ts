/** Between numbers and the text of an input. */

/** A number as a person types it; empty for none. */
export function textOf(value: number | undefined): string {
  return value === undefined ? '' : String(value);
}

/**
 * What a person typed, as a number where it is one: a decimal comma counts as a point. Blank gives
 * undefined, and anything else stays text, for the check to refuse by name.
 */
export function numberOf(text: string): number | string | undefined {
  const trimmed = text.trim();
  if (trimmed === '') return undefined;
  const plain = trimmed.replace(',', '.');
  return /^-?\d+(?:\.\d+)?$/u.test(plain) ? Number(plain) : trimmed;
}

/** `{[key]: value}`, or nothing where the value is blank. */
export function optional<K extends string, V>(key: K, value: V | undefined): Partial<Record<K, V>> {
  const blank = value === undefined || (typeof value === 'string' && value.trim() === '');
  const made: Partial<Record<K, V>> = {};
  if (!blank) made[key] = value;
  return made;
}
