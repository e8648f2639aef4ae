/** The neural recogniser on speech it was never fitted on; the networks and voices are real. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { Network } from '../../assistant/ear/neural/network.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import { JsgfError } from '../../prompts/grammar/index.ts';
import { speak } from '../speech/index.ts';

const GRAMMAR = `#JSGF V1.0; grammar test;
  public <phrase> = next step | say again | stop everything | how long left | zirconia primer on
    | margins closed | provisional's off | patient's happy | tooth <digit> <digit>;
  <digit> = one | two | three | four | five | six | seven | eight;`;
const OTHER = '#JSGF V1.0; grammar other; public <phrase> = good morning | good evening;';

let recogniser: Recogniser;

beforeAll(async () => {
  recogniser = await createNeuralRecogniser(await loadNeuralWeights());
  await recogniser.load(GRAMMAR);
});

afterAll(() => recogniser.close());

test.each([
  ['next step', 'americanMan'],
  ['stop everything', 'britishMan'],
  ['how long left', 'scottishWoman'],
  ['zirconia primer on', 'americanMan'],
  ['margins closed', 'receivedWoman'],
  ["patient's happy", 'secondAmericanMan'],
  ['tooth four six', 'americanMan'],
] as const)('hears "%s" by %s', async (phrase, voice) => {
  const heard = await recogniser.hear(await speak(phrase, voice));
  expect(heard?.phrase).toBe(phrase);
  expect(heard?.score).toBeGreaterThanOrEqual(0.6);
  expect(heard?.score).toBeLessThanOrEqual(1);
});

test.each([
  ['my daughter starts school next week', 'americanMan'],
  ['could you open a little wider please', 'britishMan'],
  ['the radio is too loud', 'receivedWoman'],
  ['how was your holiday then', 'secondAmericanMan'],
] as const)('hears nothing in "%s" by %s', async (chatter, voice) => {
  expect(await recogniser.hear(await speak(chatter, voice))).toBeNull();
});

test('hears nothing in silence, nor in no sound at all', async () => {
  expect(await recogniser.hear(new Float32Array(16_000))).toBeNull();
  expect(await recogniser.hear(new Float32Array(0))).toBeNull();
});

test('the same sound is heard alike again, whatever was heard and loaded between', async () => {
  const said = await speak('say again', 'americanMan');
  const first = await recogniser.hear(said);
  await recogniser.load(OTHER);
  const other = await recogniser.hear(await speak('good morning', 'americanMan'));
  expect(other?.phrase).toBe('good morning');
  await recogniser.load(GRAMMAR);
  expect(await recogniser.hear(said)).toEqual(first);
});

test('what was begun ahead is heard as it is without, under whichever grammar', async () => {
  const said = await speak('provisional’s off', 'secondAmericanMan');
  const first = await recogniser.hear(said);
  await recogniser.hear(await speak('next step', 'americanMan'));
  await recogniser.hearAhead?.(Float32Array.from(said));
  expect(await recogniser.hear(said)).toEqual(first);
  // What only begins alike is another sound.
  const longer = Float32Array.from([...said, ...(await speak('say again', 'americanMan'))]);
  expect(await recogniser.hear(longer)).not.toEqual(first);
  await recogniser.hearAhead?.(said);
  await recogniser.load(OTHER);
  expect(await recogniser.hear(said)).toBeNull();
  await recogniser.load(GRAMMAR);
  expect(await recogniser.hear(said)).toEqual(first);
});

test('what was begun ahead is not done again', async () => {
  const said = await speak('margins closed', 'receivedWoman');
  const [encodes, steps] = [
    vi.spyOn(Network.prototype, 'encode'),
    vi.spyOn(Network.prototype, 'step'),
  ];
  await recogniser.hearAhead?.(said);
  expect(encodes).toHaveBeenCalledOnce();
  const ahead = steps.mock.calls.length;
  expect(ahead).toBeGreaterThan(1);
  const heard = await recogniser.hear(Float32Array.from(said));
  expect(heard?.phrase).toBe('margins closed');
  expect(encodes).toHaveBeenCalledOnce();
  expect(steps).toHaveBeenCalledTimes(ahead);
  vi.restoreAllMocks();
});

test('a segment is held to the grammar loaded when it was given', async () => {
  const said = await speak('next step', 'americanMan');
  const heard = recogniser.hear(said);
  await recogniser.load(OTHER);
  expect((await heard)?.phrase).toBe('next step');
  await recogniser.load(GRAMMAR);
});

test('a text that is not JSGF is refused and leaves the grammar as it was', async () => {
  await expect(recogniser.load('nonsense')).rejects.toThrow(JsgfError);
  const heard = await recogniser.hear(await speak('next step', 'americanMan'));
  expect(heard?.phrase).toBe('next step');
});
