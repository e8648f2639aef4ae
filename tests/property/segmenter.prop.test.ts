import fc from 'fast-check';
import { expect, it } from 'vitest';
import { SEGMENTER } from '../../assistant/ear/vad/constants.ts';
import { Segmenter, type SpeechSegment } from '../../assistant/ear/vad/segmenter.ts';

const stream = fc.array(
  fc.record({
    probability: fc.double({ min: 0, max: 1, noNaN: true }),
    frames: fc.integer({ min: 1, max: 60 }),
  }),
  { maxLength: 30 },
);

function segmentsOf(runs: readonly { probability: number; frames: number }[]): {
  segments: SpeechSegment[];
  probabilities: number[];
} {
  const segmenter = new Segmenter();
  const probabilities = runs.flatMap((r) => Array.from({ length: r.frames }, () => r.probability));
  const events = probabilities.flatMap((probability, i) =>
    segmenter.push(new Float32Array(512).fill(i), probability),
  );
  const segments = [...events, ...segmenter.flush()].filter((event) => event.kind === 'segment');
  return { segments, probabilities };
}

it('every segment is an unbroken piece of the stream, as long as it says, and not too long', () => {
  fc.assert(
    fc.property(stream, (runs) => {
      for (const { pcm, startMs, endMs, speechStartMs, speechEndMs } of segmentsOf(runs).segments) {
        const first = startMs / 32;
        expect(pcm.length).toBe((endMs - startMs) * 16);
        for (let i = 0; i < pcm.length; i += 512) expect(pcm[i]).toBe(first + i / 512);
        expect(speechStartMs).toBeGreaterThanOrEqual(startMs);
        expect(speechEndMs).toBeLessThanOrEqual(endMs);
        expect(endMs - startMs).toBeLessThanOrEqual(SEGMENTER.maxMs);
      }
    }),
  );
});

it('a segment that ends by itself was told of in a pause, sample by sample', () => {
  fc.assert(
    fc.property(stream, (runs) => {
      const segmenter = new Segmenter();
      let foretold: SpeechSegment | null = null;
      let frame = 0;
      for (const { probability, frames } of runs)
        for (let i = 0; i < frames; i++)
          for (const event of segmenter.push(new Float32Array(512).fill(frame++), probability)) {
            if (event.kind === 'pause') foretold = event.segment;
            if (event.kind === 'segment' && !event.cut) expect(event).toEqual(foretold);
          }
    }),
  );
});

it('no run of sure speech long enough to be a word is lost', () => {
  fc.assert(
    fc.property(stream, (runs) => {
      const { segments, probabilities } = segmentsOf(runs);
      const covered = (frame: number): boolean =>
        segments.some((s) => s.startMs <= frame * 32 && s.endMs >= (frame + 1) * 32);
      const words = probabilities
        .map((_, i) => i)
        .filter((i) => probabilities.slice(i, i + 3).filter((p) => p >= 0.5).length === 3);
      expect(words.filter((i) => !covered(i))).toEqual([]);
    }),
  );
});
