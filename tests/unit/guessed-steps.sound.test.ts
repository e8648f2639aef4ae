/** What is guessed saves steps of the real network, and changes nothing else. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { Network, type Step } from '../../assistant/ear/neural/network.ts';
import { prepare } from '../../assistant/ear/neural/prepare.ts';
import { cutText } from '../../assistant/ear/neural/vocabulary.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { speak } from '../speech/index.ts';

const cut = (text: string): readonly number[] => {
  const tokens = cutText(text, true);
  if (tokens === null) throw new Error(`"${text}" cannot be cut`);
  return tokens;
};
const [LAN = 0, TERN = 0] = cut('Lantern');
const [CROWN = 0] = cut('crown');
const [OUT = 0] = cut('out');

let network: Network;
beforeAll(async () => {
  network = await Network.load(await loadNeuralWeights());
});
afterAll(() => network.close());

/** Scores are rounded with what stands beside them (docs/hearing.md); what is likely stays so. */
function expectSame(one: Step, other: Step | undefined): void {
  expect(other?.logits.length).toBe(one.logits.length);
  expect(other?.memory.length).toBe(one.memory.length);
  const apart = one.logits.reduce(
    (most, score, at) =>
      Math.max(most, Math.abs(Math.exp(score) - Math.exp(other?.logits[at] ?? NaN))),
    0,
  );
  expect(apart).toBeLessThan(0.15);
}

test('steps that were guessed are those that come one after another', async () => {
  const encoded = await network.encode(prepare(await speak('lantern, crown out', 'americanMan')));
  const begun = await network.begin(encoded);
  const first = await network.step(begun.memory, [0], [LAN]);
  const second = await network.step(first.memory, [0], [TERN]);
  const guessed = await network.begin(encoded, [LAN, TERN]);
  expectSame(begun, guessed);
  expect(guessed.guessed?.next).toEqual([LAN]);
  expectSame(first, guessed.guessed?.step);
  expect(guessed.guessed?.step.guessed?.next).toEqual([TERN]);
  expectSame(second, guessed.guessed?.step.guessed?.step);
  expect(guessed.guessed?.step.guessed?.step.guessed).toBeNull();

  // Two rows, each with a guess of its own.
  const plain = await network.step(second.memory, [0, 0], [CROWN, OUT]);
  const after = await network.step(plain.memory, [0, 1], [OUT, CROWN]);
  const both = await network.step(second.memory, [0, 0], [CROWN, OUT], [OUT, CROWN]);
  expectSame(plain, both);
  expect(both.guessed?.next).toEqual([OUT, CROWN]);
  expectSame(after, both.guessed?.step);

  // Where something else comes than was guessed, the guess is as if it had not been.
  const other = await network.step(plain.memory, [1, 0], [OUT, OUT]);
  expectSame(other, await network.step(both.memory, [1, 0], [OUT, OUT]));
  const early = await network.step(first.memory, [0], [OUT]);
  const missed = guessed.guessed?.step;
  if (missed === undefined) throw new Error('nothing was guessed');
  expectSame(early, await network.step(missed.memory, [0], [OUT]));
});

test('the call sign, the rest of a word and the stop take no step of their own', async () => {
  const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
  await recogniser.load(
    '#JSGF V1.0; grammar g; public <u> = lantern (crown out | margins closed | it is dry);',
  );
  const said = await speak('lantern, margins closed', 'americanMan');
  // Once, so that what near-silence is likely to hold is known.
  await recogniser.hear(said);
  await recogniser.hear(await speak('lantern, crown out', 'americanMan'));
  const steps = vi.spyOn(Network.prototype, 'step');
  const heard = await recogniser.hear(said);
  const taken = steps.mock.calls.length;
  vi.restoreAllMocks();
  expect(heard?.phrase).toBe('lantern margins closed');
  // "Lan-tern(,) mar-gins closed." is six tokens or seven.
  expect(taken).toBeLessThanOrEqual(4);
  await recogniser.close();
});
