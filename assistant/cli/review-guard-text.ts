import type { Counterfactual } from '../../machines/review/index.ts';
import { wrapped } from './text.ts';

/** So many kinds of refusal are told. */
const ROWS = 8;

/** What today's machine would have refused, over many records; counts only. */
export class GuardCount {
  #records = 0;
  #caught = 0;
  readonly #by = new Map<string, number>();

  /** Of what one record let through only the first for each unit counts: the rest follows from it. */
  add({ guarded }: Counterfactual): void {
    this.#records += 1;
    const seen = new Set<string | null>();
    for (const { refusal, tooth, then } of guarded) {
      if (then !== 'let through' || seen.has(tooth)) continue;
      seen.add(tooth);
      this.#by.set(refusal, (this.#by.get(refusal) ?? 0) + 1);
    }
    if (seen.size > 0) this.#caught += 1;
  }

  text(): string {
    if (this.#records === 0)
      return wrapped(
        "Whether today's guard would have caught it was not asked; --guard asks it of every record.",
        '',
        '  ',
      );
    const most = [...this.#by].toSorted(([, one], [, other]) => other - one).slice(0, ROWS);
    return [
      `Today's guard, asked of ${this.#records} records: it would have stopped what ${this.#caught} of them let through.`,
      ...most.map(([refusal, many]) => `  ${refusal.replaceAll('-', ' ')}: ${many}`),
    ].join('\n');
  }
}
