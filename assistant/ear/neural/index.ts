/** The neural recogniser: a 27-million-parameter speech model held to a grammar. */
import { parseJsgf } from '../../../prompts/grammar/index.ts';
import type { Heard, Pcm, Reading, Recogniser } from '../port.ts';
import { SAMPLE_RATE } from '../port.ts';
import {
  DEEP,
  type Decoded,
  decode,
  mostTokens,
  NARROW,
  type Path,
  type Search,
  WIDE,
} from './beam.ts';
import {
  ASKED_FROM,
  confidence,
  evidence,
  hasLost,
  isUnclear,
  isWorthViews,
  THRESHOLD,
  unsaid,
} from './confidence.ts';
import { Network, type Step } from './network.ts';
import type { CreateNeuralRecogniser } from './options.ts';
import { Prior } from './prior.ts';
import { nearSilence, prepare, QUIET_SECONDS } from './prepare.ts';
import { TokenWalk } from './token-walk.ts';
import { overViews } from './sound-views.ts';

export type { CreateNeuralRecogniser, NeuralOptions, Weights } from './options.ts';

/** Grammars kept compiled; the one unused for longest goes first. */
const KEPT_GRAMMARS = 24;
/** A sound that never rises above this is quiet, such as what the engine is warmed with. */
const QUIET_PEAK = 1e-3;
/** A path no further behind the best than this may be what was said, natural logarithm. */
const CLOSE = 2;
/** A sound longer than this is talk, not a command, and is not searched widely: talk must not hold up what follows, seconds. */
const LONGEST_WIDE = 8;
/** So many words of one of our calls are no command misheard. */
const OURS = 4;
/** Longest segment heard, seconds; the model was trained on less than 30, commands take fewer. */
const LONGEST = 20;

/** Loads the engine. @throws Error when weights cannot be fetched or are not the model's. */
export const createNeuralRecogniser: CreateNeuralRecogniser = async (options) => {
  const network = await Network.load(options);
  const prior = new Prior(network, await network.encode(nearSilence(1)));
  return new NeuralRecogniser(network, prior, options.threshold ?? THRESHOLD);
};

/** What one look at a segment found. */
interface Look {
  readonly decoded: Decoded;
  /** Neither clear nor hopeless, or believable in noise alone. */
  readonly isUnclear: boolean;
}

/** What was made of the sound heard last, so that it is not made again. */
interface Sound {
  readonly segment: Pcm;
  /** As the encoder was given it. */
  readonly prepared: Pcm;
  readonly begun: Step;
  /** Without the quiet around it. */
  readonly seconds: number;
  /** First looks, by what they were held to. */
  readonly looks: Map<TokenWalk, Look>;
}

class NeuralRecogniser implements Recogniser {
  readonly #network: Network;
  readonly #prior: Prior;
  readonly #threshold: number;
  readonly #walks = new Map<string, TokenWalk>();
  #walk: TokenWalk | null = null;
  #last: Promise<unknown> = Promise.resolve();
  #sound: Sound | null = null;

  constructor(network: Network, prior: Prior, threshold: number) {
    this.#network = network;
    this.#prior = prior;
    this.#threshold = threshold;
  }

  async load(grammar: string): Promise<void> {
    const known = this.#walks.get(grammar);
    const walk = known ?? new TokenWalk(parseJsgf(grammar));
    // Taken out and put back, the map's order is the order of use.
    this.#walks.delete(grammar);
    this.#walks.set(grammar, walk);
    const [oldest] = this.#walks.keys();
    if (this.#walks.size > KEPT_GRAMMARS && oldest !== undefined) this.#walks.delete(oldest);
    this.#walk = walk;
  }

  /** Segments wait for each other; each is held to the grammar loaded when it was given. */
  hear(segment: Pcm): Promise<Heard | null> {
    return this.#next((walk) => this.#hear(segment, walk));
  }

  /** Looks at it once: a wide search is worth its while only where the segment does come. */
  hearAhead(segment: Pcm): Promise<void> {
    return this.#next(async (walk) => {
      if (segment.length > 0) await this.#firstLook(await this.#soundOf(segment, walk), walk);
    });
  }

  #next<Result>(act: (walk: TokenWalk) => Promise<Result>): Promise<Result> {
    const walk = this.#walk;
    if (walk === null) return Promise.reject(new Error('no grammar is loaded yet'));
    const done = this.#last.then(() => act(walk));
    this.#last = done.catch(() => null);
    return done;
  }

  async close(): Promise<void> {
    await this.#last;
    await this.#network.close();
  }

  /**
   * Searches narrowly first, widely where that is neither clear nor hopeless, and deeply where what was
   * found may have lost a word. What a search found by a better path counts, be it less sure: an end
   * after the call sign is always easy to believe. And of what they found the likelihoods are taken over
   * several views of the sound.
   */
  async #hear(segment: Pcm, walk: TokenWalk): Promise<Heard | null> {
    if (segment.length === 0) return null;
    const sound = await this.#soundOf(segment, walk);
    const first = await this.#firstLook(sound, walk);
    const again =
      (first.isUnclear || isBehind(first.decoded)) &&
      !isOurs(first.decoded, walk) &&
      sound.segment.some((sample) => Math.abs(sample) > QUIET_PEAK);
    const [best, ...rest] = readings(again ? await this.#again(sound, walk, first) : first.decoded);
    if (best === undefined || best.score < Math.min(ASKED_FROM, this.#threshold)) return null;
    const { phrase, score } = best;
    const others = rest
      .filter(({ path }) => path.score >= best.path.score - CLOSE)
      .filter((other) => other.score >= ASKED_FROM)
      .map((other): Reading => ({ phrase: other.phrase, score: other.score }));
    const heard = { phrase, score, sure: score >= this.#threshold };
    return others.length === 0 ? heard : { ...heard, others };
  }

  async #again(sound: Sound, walk: TokenWalk, first: Look): Promise<Decoded> {
    let found = first.decoded;
    const search = async (how: Search): Promise<void> => {
      found = inBoth(found, (await this.#look(sound, walk, how)).decoded);
    };
    if (first.isUnclear && sound.seconds <= LONGEST_WIDE) await search(WIDE);
    if (isBehind(found)) await search(DEEP);
    const isWorth = isWorthViews(readings(found)[0]?.score ?? 0);
    return isWorth ? overViews(this.#network, sound.prepared, found) : found;
  }

  async #soundOf(whole: Pcm, walk: TokenWalk): Promise<Sound> {
    const segment = whole.subarray(0, LONGEST * SAMPLE_RATE);
    if (this.#sound !== null && isSame(this.#sound.segment, segment)) return this.#sound;
    const prepared = prepare(segment);
    const seconds = prepared.length / SAMPLE_RATE - 2 * QUIET_SECONDS;
    // Under whichever grammar: a guess that is wrong is not asked for.
    const begun = await this.#network.begin(await this.#network.encode(prepared), walk.beginning);
    this.#sound = { segment, prepared, begun, seconds, looks: new Map() };
    return this.#sound;
  }

  async #firstLook(sound: Sound, walk: TokenWalk): Promise<Look> {
    const known = sound.looks.get(walk);
    if (known !== undefined) return known;
    const look = await this.#look(sound, walk, NARROW);
    sound.looks.set(walk, look);
    return look;
  }

  async #look({ begun, seconds }: Sound, walk: TokenWalk, search: Search): Promise<Look> {
    const steps = mostTokens(seconds);
    const decoded = await decode(this.#network, begun, walk, this.#prior, steps, search);
    const [best] = readings(decoded);
    const { spoken } = decoded.free;
    const left = best === undefined ? 1 : unsaid(best.path.words, seconds);
    return { decoded, isUnclear: isUnclear(best?.score ?? 0, spoken, left) };
  }
}

/** Phrases that were found, the likeliest first, and how sure of each to be, however little that may be. */
function readings(decoded: Decoded): readonly (Reading & { readonly path: Path })[] {
  const [best] = decoded.paths;
  // Where the best path has no words, nothing was found.
  if (best === undefined || best.words.length === 0) return [];
  return decoded.paths.map((path) => ({
    phrase: path.words.join(' '),
    score: confidence(evidence(decoded, path)),
    path,
  }));
}

function isBehind(decoded: Decoded): boolean {
  const [best] = readings(decoded);
  return best !== undefined && hasLost(decoded, best.path, best.score);
}

/**
 * Whether a good stretch of one of our calls was found: nobody waits for what it says, and a second look at
 * its eight seconds would hold up whoever answers it. A word or two may be a person's, heard wrongly.
 */
function isOurs(decoded: Decoded, walk: TokenWalk): boolean {
  const [best] = readings(decoded);
  if (best === undefined || best.score < ASKED_FROM) return false;
  return best.path.words.length >= OURS && walk.isOwnVoice(best.phrase);
}

/** What two searches of one sound found, the better path of each phrase. */
function inBoth(narrow: Decoded, wide: Decoded): Decoded {
  const paths = new Map<string, Path>();
  for (const path of [...narrow.paths, ...wide.paths].toSorted((a, b) => b.score - a.score)) {
    const phrase = path.words.join(' ');
    if (!paths.has(phrase)) paths.set(phrase, path);
  }
  return { ...wide, paths: [...paths.values()] };
}

const isSame = (one: Pcm, other: Pcm): boolean =>
  one.length === other.length && one.every((sample, index) => sample === other[index]);
