/** What noise makes of one view of a sound, several views and a second search mend; all of it real. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { decode, NARROW } from '../../assistant/ear/neural/beam.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { LOGITS, Network } from '../../assistant/ear/neural/network.ts';
import type { NeuralOptions } from '../../assistant/ear/neural/options.ts';
import { nearSilence, prepare } from '../../assistant/ear/neural/prepare.ts';
import { Prior } from '../../assistant/ear/neural/prior.ts';
import { TokenWalk } from '../../assistant/ear/neural/token-walk.ts';
import { cutText } from '../../assistant/ear/neural/vocabulary.ts';
import { overViews } from '../../assistant/ear/neural/sound-views.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { parseJsgf } from '../../prompts/grammar/index.ts';
import { saidInRoom, stateLines } from '../bench/surgery.ts';
import { speak } from '../speech/index.ts';

const cut = (text: string): readonly number[] => {
  const tokens = cutText(text, true);
  if (tokens === null) throw new Error(`"${text}" cannot be cut`);
  return tokens;
};

describe('transcripts that are followed at once', () => {
  let network: Network;
  beforeAll(async () => {
    network = await Network.load(await loadNeuralWeights());
  });
  afterAll(() => network.close());

  test('are scored as they are step by step', async () => {
    const said = prepare(await speak('lantern, crown out', 'americanMan'));
    const begun = await network.begin(await network.encode(said));
    const transcripts = [cut('Lantern, crown out'), cut('Lantern')];
    const scores = await network.follow(begun.memory, transcripts);
    const length = Math.max(...transcripts.map((own) => own.length));
    expect(scores.length).toBe(2 * length * LOGITS);
    const apart: number[] = [];
    for (const [row, transcript] of transcripts.entries()) {
      let step = begun;
      for (const [at, token] of transcript.entries()) {
        step = await network.step(step.memory, [0], [token]);
        const from = (row * length + at) * LOGITS;
        step.logits.forEach((score, index) => {
          apart.push(Math.abs(Math.exp(score) - Math.exp(scores[from + index] ?? NaN)));
        });
      }
    }
    expect(new Set(transcripts.map((own) => own.length)).size).toBe(2);
    // Scores are rounded with what stands beside them (docs/hearing.md).
    expect(apart.reduce((most, one) => Math.max(most, one), 0)).toBeLessThan(0.15);
  });

  test('move what one view found towards what all of them do, and no words', async () => {
    const said = prepare(await speak('lantern, crown out', 'americanMan'));
    const [right, wrong] = ['Lantern, crown out.', 'Lantern, tooth out.'].map(cut);
    if (right === undefined || wrong === undefined) throw new Error('two transcripts are given');
    const path = { words: ['right'], tokens: right, score: 5, likelihood: -9, prior: -20 };
    const other = { ...path, words: ['wrong'], tokens: wrong, score: 6, likelihood: -8 };
    const far = { ...path, words: ['far'], score: -1 };
    const free = { tokens: right, likelihood: -9, ended: true, spoken: -3 };
    const seen = await overViews(network, said, { paths: [other, path, far], free });
    // By one view the wrong one was ahead; by the others it is far behind.
    expect(seen.paths.map(({ words }) => words)).toEqual([['right'], ['wrong']]);
    const [first, second] = seen.paths;
    expect(first?.likelihood).toBeGreaterThan(-9);
    expect(first?.likelihood).toBeLessThan(0);
    expect(second?.likelihood).toBeLessThan(-8);
    for (const [now, before] of [
      [first, path],
      [second, other],
    ] as const)
      expect((now?.score ?? 0) - (now?.likelihood ?? 0)).toBeCloseTo(
        before.score - before.likelihood,
      );
    expect(seen.free.likelihood).toBeCloseTo(first?.likelihood ?? 0);
    // Less than the one view held it unlikely that anything was said, for the others do not doubt it.
    expect(seen.free.spoken).toBeGreaterThan(-1.3);
    expect(seen.free.spoken).toBeLessThan(-0.3);
  });

  test('leave alone where nothing was found', async () => {
    const free = { tokens: cut('Hello'), likelihood: -1, ended: true, spoken: 0 };
    const nothing = { paths: [], free };
    expect(await overViews(network, new Float32Array(16_000), nothing)).toBe(nothing);
  });
});

describe('two encoders', () => {
  const GRAMMAR = '#JSGF V1.0; grammar g; public <g> = lantern (crown | tooth) out;';

  /** How likely what was said is, in suction, over all views of both encoders; natural logarithm. */
  async function likelihoodBy(options: NeuralOptions): Promise<number> {
    const network = await Network.load(options);
    const prior = new Prior(network, await network.encode(nearSilence(1)));
    const suction = { noise: 'suction', decibels: 5 } as const;
    const said = prepare(await saidInRoom('lantern, crown out', 'americanMan', suction, 3));
    const begun = await network.begin(await network.encode(said));
    const walk = new TokenWalk(parseJsgf(GRAMMAR));
    const decoded = await decode(network, begun, walk, prior, 12, NARROW);
    const { paths } = await overViews(network, said, decoded);
    await network.close();
    expect(paths[0]?.words).toEqual(['lantern', 'crown', 'out']);
    return paths[0]?.likelihood ?? NaN;
  }

  test('count as the sound is clear to them, whichever of them that is', async () => {
    const weights = await loadNeuralWeights();
    const { encoder: fitted, givenEncoder: given } = weights;
    const onlyFitted = await likelihoodBy({ ...weights, givenEncoder: fitted });
    const onlyGiven = await likelihoodBy({ ...weights, encoder: given });
    expect(onlyFitted - onlyGiven).toBeGreaterThan(6);
    for (const one of [weights, { ...weights, encoder: given, givenEncoder: fitted }])
      expect(Math.abs((await likelihoodBy(one)) - onlyFitted)).toBeLessThan(1.5);
  });
});

describe('a narrow search that noise leads astray', () => {
  test('is followed by another, where it is doubtful that anything was said', async () => {
    const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
    const line = (await stateLines()).find(({ words }) => words === 'dam off');
    if (line === undefined) throw new Error('no appointment has its dam off');
    await recogniser.load(
      heldGrammar(line.phrases, 'addressed', ATTENTION.callSign, ATTENTION.stopPhrases),
    );
    const suction = { noise: 'suction', decibels: 5 } as const;
    // By its first look alone the first is "lantern time left", at 0.87.
    for (const seed of [1_056, 1_128]) {
      const said = await saidInRoom('lantern, dam off', 'scottishMan', suction, seed);
      const heard = await recogniser.hear(said);
      expect(heard?.phrase).toBe('lantern dam off');
      expect(heard?.score).toBeGreaterThan(0.6);
    }
    await recogniser.close();
  });
});
