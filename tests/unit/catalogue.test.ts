import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import {
  Call,
  Command,
  CAUTIONS,
  CONTAMINANTS,
  HEARD_BADLY,
  FINDINGS,
  REASONS,
  Refusal,
  REFUSALS,
  STEPS,
  SURFACES,
  TEETH,
} from '../../machines/contract/index.ts';
import {
  allPieces,
  callPieces,
  callText,
  callTiming,
  callWords,
} from '../../prompts/catalogue/index.ts';
import { durationPieces, numberWords } from '../../prompts/catalogue/numbers.ts';

const step = fc.constantFrom(...STEPS);
const seconds = fc.oneof(fc.nat(600), fc.nat(10_000));
const reason = fc.constantFrom(...REASONS);
const refusal = fc.constantFrom(...REFUSALS);
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });

/** Of `values` those that a shape has. */
const those = (shape: object, values: object): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([name]) => Object.keys(shape).includes(name)));

/** Any command of the contract, every type among them. */
const anyCommand = fc
  .tuple(
    fc.constantFrom(...Command.options),
    fc.record({
      step,
      reason,
      tooth: fc.constantFrom(...TEETH),
      surface: fc.constantFrom(...SURFACES),
      contaminant: fc.constantFrom(...CONTAMINANTS),
      finding: fc.constantFrom(...FINDINGS),
      seconds: fc.integer({ min: 5, max: 60 }),
      about: fc.constantFrom('step', 'time', 'why', 'repeat'),
      text: fc.constant('a note'),
      item: fc.constant('cement'),
      lot: fc.constant('A1'),
    }),
  )
  .map(([schema, values]) =>
    Command.parse({ ...those(schema.shape, values), type: schema.shape.type.value }),
  );

/** A value for every field a call can have; each call takes those it has. */
const fields = fc.record({
  command: anyCommand,
  step,
  seconds,
  reason,
  caution: fc.constantFrom(...CAUTIONS),
  tooth: fc.constantFrom(...TEETH),
  until: fc.constantFrom('gel', 'set'),
  named: fc.constant(true),
  for: fc.constantFrom('skip', 'short', 'override', 'counts-clean'),
  why: fc.constantFrom(...HEARD_BADLY),
  contamination: fc.boolean(),
  ready: fc.boolean(),
  surface: fc.constantFrom(...SURFACES),
  contaminant: fc.constantFrom(...CONTAMINANTS),
  finding: fc.constantFrom(...FINDINGS),
  refusal: fc.record({
    id: refusal,
    step: orNull(step),
    wayOn: orNull(step),
    seconds: orNull(seconds),
    overridable: fc.boolean(),
  }),
});

/** Any call of the contract, every id among them. */
const anyCall: fc.Arbitrary<Call> = fc
  .tuple(fc.constantFrom(...Call.options), fields)
  .map(([schema, values]) => {
    const id = schema.shape.id.value;
    const wanted = those(schema.shape, values);
    const asked = id === 'ask-override' ? { refusal: values.refusal.id } : {};
    return Call.parse({ ...wanted, ...asked, id });
  });

describe('every call of the contract', () => {
  const pieces = new Set(allPieces());

  test('is made of pieces that are rendered', () => {
    fc.assert(
      fc.property(anyCall, (call) => {
        const parts = callPieces(call);
        expect(parts.length).toBeGreaterThan(0);
        expect(parts.filter((piece) => !pieces.has(piece))).toEqual([]);
      }),
      { numRuns: 5_000 },
    );
  });

  test('is shown as it is said', () => {
    fc.assert(
      fc.property(anyCall, (call) => {
        expect(callText(call)).toBe(callPieces(call).join(' '));
      }),
    );
  });

  test('never begins with a word that stops everything', () => {
    fc.assert(
      fc.property(anyCall, (call) => {
        expect(callText(call)).not.toMatch(/^stop/i);
      }),
      { numRuns: 2_000 },
    );
  });
});

test('no word of a call stops everything or is the call sign', () => {
  for (const phrase of ATTENTION.stopPhrases) expect(callWords()).not.toContain(phrase);
  expect(callWords()).not.toContain(ATTENTION.callSign);
});

test('every refusal says why and what would make it acceptable', () => {
  for (const id of REFUSALS) {
    const refused = Refusal.parse({
      id,
      step: null,
      wayOn: null,
      seconds: null,
      overridable: false,
    });
    expect(callPieces({ id: 'refusal', refusal: refused }).length).toBeGreaterThanOrEqual(3);
  }
});

test('a refused cleaner in the mouth', () => {
  const call: Call = {
    id: 'refusal',
    refusal: {
      id: 'in-mouth',
      step: 'cleaner',
      wayOn: 'take-out',
      seconds: null,
      overridable: false,
    },
  };
  expect(callText(call)).toBe(
    'Refused. Never in the mouth. It burns. First, take-out. No override.',
  );
  expect(callTiming(call)).toEqual({
    priority: 'refusal',
    deadlineMs: 8_000,
    latestOnly: false,
    question: false,
  });
});

test('pieces are short sentences without figures', () => {
  for (const piece of allPieces()) {
    expect(piece).toMatch(/^[A-Z][A-Za-z ,.'-]*[.?]$/);
    expect(piece.split(' ').length).toBeLessThanOrEqual(14);
  }
});

test('times are said so that none is taken for another', () => {
  expect([13, 30, 15, 50, 16, 60].map(numberWords)).toEqual([
    'one three',
    'thirty',
    'one five',
    'fifty',
    'one six',
    'sixty',
  ]);
  const spoken = Array.from({ length: 3_601 }, (_, i) => durationPieces(i).join(' '));
  expect(new Set(spoken).size).toBe(spoken.length);
  expect(durationPieces(150)).toEqual(['Two minutes.', 'Thirty seconds.']);
});

test('the working words of a call are those of the chair', () => {
  expect(callText({ id: 'begun', step: 'silane', seconds: 60 })).toBe('Silane on. Sixty seconds.');
  expect(callText({ id: 'unit', tooth: '46' })).toBe('Tooth four six. Lower right first molar.');
  expect(callText({ id: 'opening' })).toContain('It is not a medical device.');
});
