import { expect, it } from 'vitest';
import { toJsonLines, verifyText } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

it('verifies a record of 150 entries in under 50 ms', () => {
  const { header, entries } = sampleRecord(150);
  const file = new TextEncoder().encode(toJsonLines([header, ...entries]));
  const times = Array.from({ length: 9 }, () => {
    const from = performance.now();
    const { ok } = verifyText(file);
    const taken = performance.now() - from;
    return ok ? taken : Number.NaN;
  });
  const [fastest = Number.NaN] = times.toSorted((a, b) => a - b);
  console.log(
    `verify: 150 entries, ${file.length} bytes, ${fastest.toFixed(1)} ms (first ${times[0]?.toFixed(1)} ms)`,
  );
  // The fastest of nine: other work on the machine is no fault of the verifier.
  expect(fastest).toBeLessThan(50);
});
