/** A long sentence in noise, out of which a quick search loses words that a deep one finds; all of it real. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasLost } from '../../assistant/ear/neural/confidence.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import { saidInRoom } from '../bench/surgery.ts';

/** Orders for a tray, invented; longer than any of ours. */
const TRAYS = `#JSGF V1.0; grammar trays;
public <order> = (bring | pass | order) (me | us) <some> [and <some>] [for (the left | the right) side];
<some> = (one | two | three | four) [small | large | medium] [straight | curved | round]
  (mirrors | probes | burnishers | brushes | wedges | spatulas | clamps)
  [with (a blue | a green | a yellow) handle];`;
const SAID = 'pass me four probes and one small clamps with a yellow handle';
const SUCTION = { noise: 'suction', decibels: 5 } as const;

let recogniser: Recogniser;
beforeAll(async () => {
  recogniser = await createNeuralRecogniser(await loadNeuralWeights());
});
afterAll(() => recogniser.close());

describe('a sentence of which a quick search loses the middle', () => {
  test('is heard whole', async () => {
    await recogniser.load(TRAYS);
    const heard = await recogniser.hear(await saidInRoom(SAID, 'secondAmericanMan', SUCTION, 28));
    expect(heard?.phrase).toBe(SAID);
  });

  test('is told by how far its path stays behind what is written freely, if it is not hopeless', () => {
    const path = { words: ['pass'], tokens: [5], score: 0, likelihood: -20, prior: -30 };
    const free = { tokens: [5], likelihood: -13, ended: true, spoken: 0 };
    const found = { paths: [path], free };
    expect(hasLost(found, path, 0.9)).toBe(true);
    expect(hasLost(found, path, 0.01)).toBe(false);
    expect(hasLost({ ...found, free: { ...free, likelihood: -15 } }, path, 0.9)).toBe(false);
  });
});
