/**
 * The same sound seen a little differently. The encoder looks at a sound in steps of 24 ms and rounds
 * what it makes of it: a few milliseconds later, or a little faster, one sound comes out several
 * nats likelier or less likely to be the same phrase. What several views agree on is what was said.
 */
import type { Pcm } from '../port.ts';
import type { Decoded, Path } from './beam.ts';
import { LOGITS, type Network, type Step } from './network.ts';
import { logProbability, rowOf } from './scores.ts';
import { END_TOKEN } from './vocabulary.ts';

/** Quiet put before the sound, samples, less than a step of the encoder's, and what is left of its level. */
const LATER = { samples: 112, level: 0.99 };
/** How much faster. */
const FASTER = 1.06;
/** So many paths are worth another view: each takes a row of the decoder. */
const MOST = 8;
/** A path this far behind the best, natural logarithm, comes to the front in no view. */
const BEHIND = 6;

const later = (sound: Pcm): Pcm => {
  const seen = new Float32Array(sound.length + LATER.samples);
  seen.set(
    sound.map((sample) => sample * LATER.level),
    LATER.samples,
  );
  return seen;
};

/**
 * By a cubic through the samples around (Catmull and Rom 1974, from memory): what it folds back at the top
 * matters to no view, and the microphone's filter (`resample.ts`) takes four times as long, 75 ms of 2.5 s.
 */
const faster = (sound: Pcm): Pcm =>
  Float32Array.from({ length: Math.floor((sound.length - 3) / FASTER) }, (_, index) => {
    const at = index * FASTER;
    const part = at - Math.floor(at);
    const [a = 0, b = 0, c = 0, d = 0] = [-1, 0, 1, 2].map((by) => sound[Math.floor(at) + by]);
    const bend = 3 * (b - c) + d - a;
    return b + 0.5 * part * (c - a + part * (2 * a - 5 * b + 4 * c - d + part * bend));
  });

const VIEWS = [later, faster];

/**
 * What a search of `sound` found, `decoded`, with likelihoods that are the means over it and its views;
 * only what comes close to the best path is kept.
 */
export async function overViews(network: Network, sound: Pcm, decoded: Decoded): Promise<Decoded> {
  const { free } = decoded;
  const best = decoded.paths[0]?.score ?? -Infinity;
  const near = decoded.paths.filter(({ score }) => score >= best - BEHIND).slice(0, MOST);
  if (near.length === 0) return decoded;
  const seen: { readonly rows: readonly number[]; readonly spoken: number }[] = [];
  for (const view of VIEWS) {
    const begun = await network.begin(await network.encode(view(sound)));
    const rows = await likelihoods(network, begun, [...near, free]);
    seen.push({ rows, spoken: rowOf(begun.logits, 0, END_TOKEN).norm });
  }
  const mean = (own: number, others: readonly number[]): number =>
    others.reduce((sum, one) => sum + one, own) / (others.length + 1);
  const likelihood = ({ likelihood: own }: { readonly likelihood: number }, row: number): number =>
    mean(
      own,
      seen.map(({ rows }) => rows[row] ?? own),
    );
  const paths = near.map((path, row): Path => {
    const all = likelihood(path, row);
    return { ...path, likelihood: all, score: path.score + all - path.likelihood };
  });
  return {
    paths: paths.toSorted((one, other) => other.score - one.score),
    free: {
      ...free,
      likelihood: likelihood(free, near.length),
      spoken: mean(
        free.spoken,
        seen.map(({ spoken }) => spoken),
      ),
    },
  };
}

/** How likely each transcript is, to its end where it has come to one, as `decode` adds it up. */
async function likelihoods(
  network: Network,
  begun: Step,
  transcripts: readonly { readonly tokens: readonly number[]; readonly ended?: boolean }[],
): Promise<number[]> {
  const scores = await network.follow(
    begun.memory,
    transcripts.map(({ tokens }) => tokens),
  );
  const length = scores.length / LOGITS / transcripts.length;
  return transcripts.map(({ tokens, ended }, row) => {
    const all = ended === false ? tokens : [...tokens, END_TOKEN];
    return all.reduce((sum, token, at) => {
      const from =
        at === 0 ? rowOf(begun.logits, 0, END_TOKEN) : rowOf(scores, row * length + at - 1);
      return sum + logProbability(from, token);
    }, 0);
  });
}
