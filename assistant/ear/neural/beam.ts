import type { Network, Step } from './network.ts';
import type { Prior, PriorNode } from './prior.ts';
import { likeliest, logProbability, type Row, rowOf } from './scores.ts';
import type { TokenWalk, WalkState } from './token-walk.ts';
import { END_TOKEN } from './vocabulary.ts';

/** How much is looked at before the best path is believed. */
export interface Width {
  /** Hypotheses kept at each step. */
  readonly beam: number;
  /** A path this far below the best of its length is given up: fewer rows are what saves time. */
  readonly behindBest: number;
  /** A path this far below the best finished one is given up. */
  readonly behindFinished: number;
}

/** How wide a search is: `first` for so many tokens from the beginning, `then` for the rest. */
export interface Search {
  readonly tokens: number;
  readonly first: Width;
  readonly then: Width;
}

const clear: Width = { beam: 6, behindBest: 5, behindFinished: 8 };
/** Finds what is clear. */
export const NARROW: Search = { tokens: 0, first: clear, then: clear };
/**
 * In noise the model would rather end, so every beginning is as unlikely as every other, and what was
 * said shows only after its first word: the call sign's tokens and those of one or two words more.
 */
export const WIDE: Search = {
  tokens: 6,
  first: { beam: 60, behindBest: 8, behindFinished: 24 },
  then: { beam: 10, behindBest: 5.5, behindFinished: 24 },
};
const deep: Width = { beam: 16, behindBest: 8, behindFinished: 16 };
/**
 * In a long sentence noise hides a word in its middle: of two paths as long in tokens, the one that left
 * the word out has come further in the sound, and looks better until both have come to their ends.
 */
export const DEEP: Search = { tokens: 0, first: deep, then: deep };
/** Tokens a second that the quickest speech may come to, and those any segment may have. */
const TOKENS_PER_SECOND = 10;
const TOKENS_AT_LEAST = 4;

/** How many tokens a search of so many seconds of sound may take. */
export const mostTokens = (seconds: number): number =>
  TOKENS_AT_LEAST + Math.ceil(seconds * TOKENS_PER_SECOND);

/** Added for each token: noise makes the model stop early and drop the end. */
const TOKEN_BONUS = 0.4;
/** Share of the near-silence score taken away: raw scores favour phrases that are common text. */
const PRIOR_SHARE = 0.5;
/** The prior counts as no less than this: else what both find absurd would be rewarded. */
const LEAST_PRIOR = -14;
/** A token less likely than this (natural logarithm) is not followed. */
const HOPELESS = -20;

/** For more paths than this a guess takes more time than it saves, being right for one of them. */
const GUESSED_FOR = 2;

/** One way through the grammar. All sums are natural logarithms. */
export interface Path {
  readonly words: readonly string[];
  readonly tokens: readonly number[];
  /** What paths are compared by: likelihood, bonus and prior together. */
  readonly score: number;
  /** What the model alone gives it. */
  readonly likelihood: number;
  /** What the near-silence prior gives it. */
  readonly prior: number;
}

/** What the model writes when no grammar holds it, step by step beside the grammar's paths. */
export interface Free {
  readonly tokens: readonly number[];
  readonly likelihood: number;
  readonly ended: boolean;
  /** How likely the model holds it that anything was said, natural logarithm. */
  readonly spoken: number;
}

/** The finished paths, best first, one per phrase. */
export interface Decoded {
  readonly paths: readonly Path[];
  readonly free: Free;
}

interface Live extends Path {
  readonly state: WalkState;
  readonly node: PriorNode;
  readonly row: number;
}

const byScore = (a: Path, b: Path): number => b.score - a.score;

/**
 * Decodes a segment from the first step `begun` on, held to the grammar that `walk` walks, in at
 * most `mostSteps` tokens. That nothing was said is out of the question: voice activity called it
 * speech, and in noise the model is ready to believe in nothing, which says nothing about words.
 */
export async function decode(
  network: Network,
  begun: Step,
  walk: TokenWalk,
  prior: Prior,
  mostSteps: number,
  search: Search,
): Promise<Decoded> {
  let live: Live[] = [
    {
      words: [],
      tokens: [],
      score: 0,
      likelihood: 0,
      prior: 0,
      row: 0,
      state: walk.start,
      node: prior.root(),
    },
  ];
  const finished = new Map<string, Path>();
  let free: Free & { readonly row: number } = {
    tokens: [],
    likelihood: 0,
    ended: false,
    spoken: rowOf(begun.logits, 0, END_TOKEN).norm,
    row: 0,
  };
  let step = begun;
  for (let count = 0; count < mostSteps; count++) {
    const except = count === 0 ? END_TOKEN : null;
    const grown = await grow(step, live, walk, prior, finished, except);
    const bestFinished = Math.max(-Infinity, ...[...finished.values()].map(({ score }) => score));
    live = narrow(grown, walk, bestFinished, count < search.tokens ? search.first : search.then);
    const goesOn = live.length > 0;
    if (!free.ended) free = freeStep(free, step, except);
    if (!goesOn) break;
    const from = live.map(({ row }) => row);
    const next = live.map(({ tokens }) => tokens.at(-1) ?? END_TOKEN);
    let freeRow = -1;
    if (!free.ended) {
      const last = free.tokens.at(-1) ?? END_TOKEN;
      // Where speech is clear a path of the grammar has the same tokens: one row serves both.
      freeRow = from.findIndex((parent, index) => parent === free.row && next[index] === last);
      if (freeRow === -1) {
        freeRow = from.push(free.row) - 1;
        next.push(last);
      }
    }
    const { guessed } = step;
    if (guessed !== null && from.every((row, index) => guessed.next[row] === next[index])) {
      // Of a step that was made already the rows stay where they are.
      step = guessed.step;
      continue;
    }
    const guess = from.length === live.length ? guessAfter(live, walk) : null;
    step = await network.step(step.memory, from, next, guess);
    free = { ...free, row: freeRow };
    live = live.map((path, row) => ({ ...path, row }));
  }
  return { paths: [...finished.values()].toSorted(byScore), free };
}

/** The tokens that probably come after those of a few paths; null where that is anybody's guess. */
function guessAfter(live: readonly Live[], walk: TokenWalk): readonly number[] | null {
  if (live.length > GUESSED_FOR) return null;
  const guesses = live.map(({ state }) => walk.guess(state));
  return guesses.every((guess) => guess === null) ? null : guesses.map((one) => one ?? END_TOKEN);
}

/** All ways on by one token; paths that may end here go to `finished`. */
async function grow(
  step: Step,
  live: readonly Live[],
  walk: TokenWalk,
  prior: Prior,
  finished: Map<string, Path>,
  except: number | null,
): Promise<Live[]> {
  const ways = live.map((path) => ({
    path,
    row: rowOf(step.logits, path.row, except),
    arcs: walk.arcs(path.state),
  }));
  await prior.fill(
    live.map(({ node }) => node),
    ways.map(({ arcs }) => new Set([END_TOKEN, ...arcs.map(({ token }) => token)])),
  );
  const grown: Live[] = [];
  for (const { path, row, arcs } of ways) {
    for (const word of path.state.endings) {
      const ended = extend(path, row, END_TOKEN, word === null ? [] : [word]);
      const phrase = ended.words.join(' ');
      if (ended.score > (finished.get(phrase)?.score ?? -Infinity)) finished.set(phrase, ended);
    }
    for (const { token, state, words } of arcs) {
      if (logProbability(row, token) < HOPELESS) continue;
      const node = prior.child(path.node, token);
      grown.push({ ...extend(path, row, token, words), state, node, row: path.row });
    }
  }
  return grown;
}

function extend(path: Live, row: Row, token: number, words: readonly string[]): Path {
  const likelihood = logProbability(row, token);
  const prior = path.node.scores.get(token) ?? likelihood;
  return {
    words: words.length === 0 ? path.words : [...path.words, ...words],
    tokens: token === END_TOKEN ? path.tokens : [...path.tokens, token],
    score: path.score + likelihood + TOKEN_BONUS - PRIOR_SHARE * Math.max(prior, LEAST_PRIOR),
    likelihood: path.likelihood + likelihood,
    prior: path.prior + prior,
  };
}

/** The best few, one for each place in the grammar and words so far; what leads nowhere takes no place. */
function narrow(
  grown: readonly Live[],
  walk: TokenWalk,
  bestFinished: number,
  width: Width,
): Live[] {
  const kept: Live[] = [];
  const seen = new Set<string>();
  const sorted = grown.toSorted(byScore);
  const best = sorted[0]?.score ?? -Infinity;
  const floor = Math.max(bestFinished - width.behindFinished, best - width.behindBest);
  for (const path of sorted) {
    if (path.score <= floor || kept.length === width.beam) break;
    if (walk.isDeadEnd(path.state)) continue;
    const key = `${path.state.place} ${path.words.join(' ')}`;
    if (!seen.has(key)) kept.push(path);
    seen.add(key);
  }
  return kept;
}

function freeStep<T extends Free & { readonly row: number }>(
  free: T,
  step: Step,
  except: number | null,
): T {
  const row = rowOf(step.logits, free.row, except);
  const token = likeliest(row);
  const likelihood = free.likelihood + logProbability(row, token);
  if (token === END_TOKEN) return { ...free, likelihood, ended: true };
  return { ...free, likelihood, tokens: [...free.tokens, token] };
}
