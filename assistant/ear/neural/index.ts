/** The neural recogniser: a 27-million-parameter speech model held to a grammar. */
import { parseJsgf } from '../../../prompts/grammar/index.ts';
import type { Heard, Pcm, Reading, Recogniser } from '../port.ts';
import { SAMPLE_RATE } from '../port.ts';
import { decode, mostTokens, NARROW, type Path, type Search, WIDE } from './beam.ts';
import {
  ASKED_FROM,
  confidence,
  evidence,
  isWorthAnother,
  THRESHOLD,
  unsaid,
} from './confidence.ts';
import { Network, type Step } from './network.ts';
import type { CreateNeuralRecogniser } from './options.ts';
import { Prior } from './prior.ts';
import { nearSilence, prepare, QUIET_SECONDS } from './prepare.ts';
import { TokenWalk } from './token-walk.ts';

export type { CreateNeuralRecogniser, NeuralOptions, Weights } from './options.ts';

/** Grammars kept compiled; the one unused for longest goes first. */
const KEPT_GRAMMARS = 24;
/** A sound that never rises above this is quiet, such as what the engine is warmed with. */
const QUIET_PEAK = 1e-3;
/** A path no further behind the best than this may be what was said, natural logarithm. */
const CLOSE = 2;
/** A sound longer than this is talk, not a command, and is searched once: talk must not hold up what follows, seconds. */
const LONGEST_AGAIN = 8;
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
  /** Null when no path through the grammar was found. */
  readonly phrase: string | null;
  readonly score: number;
  /** What paths are compared by: of two searches of one sound the one that found more counts. */
  readonly found: number;
  /** Believable ones that come close. */
  readonly others: readonly Reading[];
  readonly isWorthAnother: boolean;
}

/** What was made of the sound heard last, so that it is not made again. */
interface Sound {
  readonly segment: Pcm;
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
   * Searches narrowly first, and widely where that is neither clear nor hopeless. What a search
   * found by a better path counts, be it less sure: an end after the call sign is always easy to
   * believe.
   */
  async #hear(segment: Pcm, walk: TokenWalk): Promise<Heard | null> {
    if (segment.length === 0) return null;
    const sound = await this.#soundOf(segment, walk);
    const first = await this.#firstLook(sound, walk);
    const again =
      first.isWorthAnother &&
      sound.seconds <= LONGEST_AGAIN &&
      sound.segment.some((sample) => Math.abs(sample) > QUIET_PEAK);
    const second = again ? await this.#look(sound, walk, WIDE) : first;
    const { phrase, score, others } = second.found > first.found ? second : first;
    if (phrase === null || score < Math.min(ASKED_FROM, this.#threshold)) return null;
    const heard = { phrase, score, sure: score >= this.#threshold };
    return others.length === 0 ? heard : { ...heard, others };
  }

  async #soundOf(whole: Pcm, walk: TokenWalk): Promise<Sound> {
    const segment = whole.subarray(0, LONGEST * SAMPLE_RATE);
    if (this.#sound !== null && isSame(this.#sound.segment, segment)) return this.#sound;
    const prepared = prepare(segment);
    const seconds = prepared.length / SAMPLE_RATE - 2 * QUIET_SECONDS;
    // Under whichever grammar: a guess that is wrong is not asked for.
    const begun = await this.#network.begin(await this.#network.encode(prepared), walk.beginning);
    this.#sound = { segment, begun, seconds, looks: new Map() };
    return this.#sound;
  }

  async #firstLook(sound: Sound, walk: TokenWalk): Promise<Look> {
    const known = sound.looks.get(walk);
    if (known !== undefined) return known;
    const look = await this.#look(sound, walk, NARROW);
    sound.looks.set(walk, look);
    return look;
  }

  /** The likeliest phrase of a sound, and how sure it is, however little that may be. */
  async #look({ begun, seconds }: Sound, walk: TokenWalk, search: Search): Promise<Look> {
    const steps = mostTokens(seconds);
    const decoded = await decode(this.#network, begun, walk, this.#prior, steps, search);
    const [best, ...rest] = decoded.paths;
    const { spoken } = decoded.free;
    if (best === undefined || best.words.length === 0) {
      const isWorth = isWorthAnother(0, spoken, 1);
      return { phrase: null, score: 0, found: -Infinity, others: [], isWorthAnother: isWorth };
    }
    const read = (path: Path): Reading => ({
      phrase: path.words.join(' '),
      score: confidence(evidence(decoded, path)),
    });
    const { phrase, score } = read(best);
    return {
      phrase,
      score,
      found: best.score,
      others: rest
        .filter((path) => path.score >= best.score - CLOSE)
        .map(read)
        .filter((other) => other.score >= ASKED_FROM),
      isWorthAnother: isWorthAnother(score, spoken, unsaid(best.words, seconds)),
    };
  }
}

const isSame = (one: Pcm, other: Pcm): boolean =>
  one.length === other.length && one.every((sample, index) => sample === other[index]);
