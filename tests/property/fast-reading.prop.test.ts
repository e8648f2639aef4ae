import fc from 'fast-check';
import { expect, test } from 'vitest';
import { canonical } from '../../machines/record/canonical.ts';
import { hostility, hostilityOfLine } from '../../machines/record/json-text.ts';
import { canonicalOf } from '../../machines/record/spelling.ts';

const runs = process.env['SEATCALL_NIGHTLY'] === '1' ? 20_000 : 1000;

/** Values with their keys in order as often as not, and strings of every kind, lone surrogates too. */
const values = fc.jsonValue({ stringUnit: 'binary', maxDepth: 4 }).chain((value) => {
  const text = JSON.stringify(value);
  const made = fc.constant(text);
  try {
    return fc.constantFrom(text, canonical(value));
  } catch {
    return made;
  }
});

const outcome = (work: () => string): string => {
  try {
    return work();
  } catch {
    return 'no canonical form';
  }
};

test('the quick canonical form is the canonical form', () => {
  fc.assert(
    fc.property(values, (text) => {
      const value: unknown = JSON.parse(text);
      expect(outcome(() => canonicalOf(value))).toBe(outcome(() => canonical(value)));
    }),
    { numRuns: runs },
  );
});

test('the quick look at a line sees all nesting that the slow one sees, whatever stands in strings', () => {
  const bit = fc.constantFrom(
    '{',
    '}',
    '[',
    ']',
    '"',
    '"a":',
    '\\"',
    '\\\\',
    ',',
    '1',
    '[[[[[[',
    '{"b":{"c":{',
  );
  const deep = /nests deeper/;
  let found = 0;
  fc.assert(
    fc.property(
      fc.integer({ min: 20, max: 34 }),
      fc.array(bit, { maxLength: 30 }),
      (many, bits) => {
        const text = `${'['.repeat(many)}${bits.join('')}`;
        const slow = hostility(text);
        // The slow look ends at the first thing it finds, and also knows of keys that stand twice.
        if (slow !== null && !deep.test(slow)) return;
        expect(hostilityOfLine(text)).toBe(slow);
        if (slow !== null) found += 1;
      },
    ),
    { numRuns: runs },
  );
  expect(found).toBeGreaterThan(runs / 100);
});
