/**
 * The same sound seen a little differently. The encoder looks at a sound in steps of 24 ms and rounds
 * what it makes of it: a few milliseconds later, or a little faster, one sound comes out several
 * nats likelier or less likely to be the same phrase. What several views agree on is what was said.
 */
import type { Pcm } from '../port.ts';
import type { Decoded, Path } from './beam.ts';
import { type Hearer, LOGITS, type Network, type Step } from './network.ts';
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
 * The encoder fitted to rooms hears more than the package's own beside a suction, and now and then less in
 * other noise. The one counts more to which the sound is the clearer: so much ahead by its best path, natural
 * logarithm, it counts e times the other. Measured: `docs/hearing.md`, "Two encoders".
 */
const CLEARER = 3;
/** This far behind in the sound alone, the package's own has no say, and its other views are not taken. */
const NO_SAY = 6;

type Transcript = Pick<Path, 'tokens' | 'likelihood'> & { readonly ended?: boolean };

/**
 * What one view of a sound is to one encoder, or the mean of several, in natural logarithms: how likely each
 * transcript is, and, last, that anything was said at all.
 */
type Seen = readonly number[];

/**
 * What a search of `sound` found, `decoded`, with likelihoods that are the means over it and its views,
 * and over two encoders; only what comes close to the best path is kept.
 */
export async function overViews(network: Network, sound: Pcm, decoded: Decoded): Promise<Decoded> {
  const { free } = decoded;
  const best = decoded.paths[0]?.score ?? -Infinity;
  const near = decoded.paths.filter(({ score }) => score >= best - BEHIND).slice(0, MOST);
  if (near.length === 0) return decoded;
  const all: readonly Transcript[] = [...near, free];
  const look = async (seen: Pcm, by: Hearer): Promise<Seen> => {
    const begun = await network.begin(await network.encode(seen, by));
    const spoken = rowOf(begun.logits, 0, END_TOKEN).norm;
    return [...(await likelihoods(network, begun, all)), spoken];
  };
  const overAll = async (own: Seen, by: Hearer): Promise<Seen> => {
    const looks = [own];
    for (const view of VIEWS) looks.push(await look(view(sound), by));
    return own.map((_, at) => looks.reduce((sum, one) => sum + (one[at] ?? 0), 0) / looks.length);
  };
  const scored = (seen: Seen): readonly Path[] =>
    near.map((path, row): Path => {
      const likelihood = seen[row] ?? path.likelihood;
      return { ...path, likelihood, score: path.score + likelihood - path.likelihood };
    });
  const top = (seen: Seen): number => Math.max(...scored(seen).map(({ score }) => score));
  const fitted = await overAll([...all.map(({ likelihood }) => likelihood), free.spoken], 'fitted');
  const alone = await look(sound, 'given');
  let seen = fitted;
  if (top(fitted) - top(alone) < NO_SAY) {
    const given = await overAll(alone, 'given');
    const share = 1 / (1 + Math.exp((top(fitted) - top(given)) / CLEARER));
    seen = fitted.map((one, at) => one + share * ((given[at] ?? one) - one));
  }
  const [likelihood = free.likelihood, spoken = free.spoken] = seen.slice(near.length);
  return {
    paths: scored(seen).toSorted((one, other) => other.score - one.score),
    free: { ...free, likelihood, spoken },
  };
}

/** How likely each transcript is, to its end where it has come to one, as `decode` adds it up. */
async function likelihoods(
  network: Network,
  begun: Step,
  transcripts: readonly Transcript[],
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
