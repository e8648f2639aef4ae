/** Spreads a number's bits, so that neighbours begin far apart (finaliser of MurmurHash3, public domain, from memory). */
function spread(value: number): number {
  let mixed = value >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

/** Chance with a seed: the same numbers on every machine. Not for anything that must be secret. */
export class Chance {
  #a: number;
  #b: number;
  #c: number;
  #counter = 1;

  /** `stream` tells apart what is drawn side by side with one seed. */
  constructor(seed: number, stream: number) {
    this.#a = spread(seed);
    this.#b = spread(stream + 0x9e3779b9);
    this.#c = spread(this.#a ^ stream);
    for (let i = 0; i < 20; i += 1) this.next();
  }

  /** Uniform on [0, 1). Small fast counter generator (sfc32), public domain, from memory. */
  next(): number {
    const sum = (this.#a + this.#b + this.#counter) | 0;
    this.#counter = (this.#counter + 1) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = (((this.#c << 21) | (this.#c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 4_294_967_296;
  }

  hits(probability: number): boolean {
    return this.next() < probability;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number from `low` to `high`, both among them. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.next());
  }

  /** One of these. @throws RangeError when there are none. */
  pick<T>(items: readonly T[]): T {
    const item = items[Math.floor(items.length * this.next())];
    if (item === undefined) throw new RangeError('Nothing to pick from.');
    return item;
  }

  /** One of these by weight. */
  weighed<T>(items: readonly (readonly [T, number])[]): T {
    let left = this.next() * items.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [item, weight] of items) {
      left -= weight;
      if (left < 0) return item;
    }
    return this.pick(items.map(([item]) => item));
  }

  /** Exponential with mean 1. */
  exponential(): number {
    return -Math.log(1 - this.next());
  }

  /** Times people take: the median, spread by about a third. */
  around(median: number): number {
    const normal = Math.sqrt(2 * this.exponential()) * Math.cos(2 * Math.PI * this.next());
    return median * Math.exp(0.35 * normal);
  }
}
