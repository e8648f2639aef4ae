/** Both appointments as sound files in three voices, rehearsed on the file's own clock by the whole core. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { CaseFile } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { verify } from '../../machines/record/index.ts';
import { type Happened, rehearseCase } from '../../assistant/cli/rehearsal.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { pieceLengths } from '../chair/pieces.ts';
import { Script } from '../chair/script.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import type { Talk } from '../chair/talk.ts';
import { openNeuralRecogniser } from '../ear/neural.ts';
import type { VoiceName } from '../speech/index.ts';
import { buildTimeline } from '../speech/timeline.ts';

let recogniser: Recogniser;
beforeAll(async () => {
  recogniser = await openNeuralRecogniser();
});
afterAll(() => recogniser.close());

interface Rehearsed {
  readonly script: Script;
  readonly happened: readonly Happened[];
  readonly outcomes: readonly string[];
  readonly closed: boolean;
}

async function rehearsed(
  caseFile: CaseFile,
  seat: (talk: Talk) => Promise<void>,
  voice: VoiceName,
): Promise<Rehearsed> {
  const pieceMs = await pieceLengths();
  const script = new Script(caseFile, { voice, callSign: 'lantern', pieceMs, patience: 0 });
  await seat(script);
  const { pcm } = await buildTimeline({ utterances: script.utterances, tailMs: 4_000 });
  const store = new MemoryStore();
  const happened: Happened[] = [];
  const caseId = await rehearseCase(caseFile, makePlan(caseFile), pcm, {
    recogniser,
    weights: await loadSpeechWeights(),
    clips: new Map([...pieceMs].map(([piece, ms]) => [piece, { url: '', ms }])),
    store,
    callSign: 'lantern',
    startWall: Date.parse('2026-01-05T09:00:00Z'),
    tell: (one) => happened.push(one),
  });
  const verdict = verify(await store.lines(caseId));
  if (!verdict.ok) throw new Error(verdict.message);
  const outcomes = verdict.entries.map(({ outcome }) => outcome.kind);
  return { script, happened, outcomes, closed: verdict.closing !== null };
}

const called = (happened: readonly Happened[]): string =>
  happened.flatMap((one) => (one.what === 'called' ? [one.text] : [])).join('\n');

/** The case, its talk, and a call that only this talk can bring about. */
const ZIRCONIA = [ZIRCONIA_CASE, seatZirconia, 'Never in the mouth. It burns.'] as const;
const DISILICATE = [DISILICATE_CASE, seatDisilicate, 'Only etching takes silicone off.'] as const;

// No weight of the confidence was fitted on the two men.
test.each([
  ['zirconia', 'americanWoman', ZIRCONIA],
  ['lithium disilicate', 'americanMan', DISILICATE],
  ['zirconia', 'britishMan', ZIRCONIA],
  ...(process.env['SEATCALL_NIGHTLY'] === '1'
    ? ([['lithium disilicate', 'britishMan', DISILICATE]] as const)
    : []),
] as const)(
  '%s, said through by %s: every line is taken as it was meant',
  async (_, voice, said) => {
    const [caseFile, seat, call] = said;
    const { script, happened, outcomes, closed } = await rehearsed(caseFile, seat, voice);
    expect(outcomes).toEqual(script.lines.map(({ expected }) => expected));
    expect(closed).toBe(true);
    expect(called(happened)).toContain(call);
  },
);
