import type { CaseFile, HeaderLine } from '../../machines/contract/index.ts';
import { caseIdOf } from '../../machines/record/index.ts';
import type { Tombstone } from '../../machines/record/index.ts';
import { readSettings } from './settings.ts';
import type { Settings } from './settings.ts';
import { makeKey } from './signing.ts';
import {
  caseExists,
  isUnfinished,
  lastOpenedFirst,
  mustBury,
  mustFollow,
  mustNotBeBuried,
  noSuchCase,
  openElsewhere,
  released,
  summarise,
} from './store.ts';
import type { CaseWriter, Kept, Store } from './store.ts';

interface Kase {
  readonly header: HeaderLine;
  readonly lines: Kept[];
  readonly cutAfter?: number | undefined;
}

/** A store that lasts as long as the page: for private mode and full disks. Lines are copied in and out. */
export class MemoryStore implements Store {
  readonly keeping = 'memory';
  readonly #cases = new Map<string, Kase>();
  readonly #writing = new Set<string>();
  readonly #ledger: Tombstone[] = [];
  readonly #prepared = new Map<string, CaseFile>();
  #settings: Settings | undefined;
  #keys: Promise<CryptoKeyPair> | undefined;

  #case(caseId: string): Kase {
    const kase = this.#cases.get(caseId);
    if (kase === undefined) throw noSuchCase();
    return kase;
  }

  async openCase(header: HeaderLine): Promise<CaseWriter> {
    await this.putRecord(header, []);
    return this.resumeCase(caseIdOf(header));
  }

  async resumeCase(caseId: string): Promise<CaseWriter> {
    const { lines } = this.#case(caseId);
    if (this.#writing.has(caseId)) throw openElsewhere();
    this.#writing.add(caseId);
    let held = true;
    return {
      caseId,
      keeping: 'memory',
      append: async (line) => {
        if (!held) throw released();
        mustFollow(caseId, lines.at(-1) ?? null, line);
        lines.push(structuredClone(line));
      },
      release: () => {
        if (held) this.#writing.delete(caseId);
        held = false;
      },
    };
  }

  async putRecord(header: HeaderLine, lines: readonly Kept[], cutAfter?: number): Promise<void> {
    const caseId = caseIdOf(header);
    if (this.#cases.has(caseId)) throw caseExists();
    mustNotBeBuried(caseId, this.#ledger);
    for (const [i, line] of lines.entries()) mustFollow(caseId, lines[i - 1] ?? null, line);
    this.#cases.set(caseId, structuredClone({ header, lines: [...lines], cutAfter }));
  }

  async markCut(caseId: string, cutAfter: number): Promise<void> {
    // The lines stay the same array: a writer may hold it.
    this.#cases.set(caseId, { ...this.#case(caseId), cutAfter });
  }

  async deleteCase(tombstone: Tombstone): Promise<void> {
    const { caseId } = tombstone;
    const { lines } = this.#case(caseId);
    if (this.#writing.has(caseId)) throw openElsewhere();
    mustBury(tombstone, this.#ledger, lines.at(-1) ?? null);
    this.#cases.delete(caseId);
    this.#ledger.push(structuredClone(tombstone));
  }

  async tombstones(): Promise<unknown[]> {
    return structuredClone(this.#ledger);
  }

  async lines(caseId: string): Promise<unknown[]> {
    const { header, lines } = this.#case(caseId);
    return structuredClone([header, ...lines]);
  }

  async listCases() {
    return [...this.#cases.values()]
      .map(({ header, lines, cutAfter }) => summarise(header, lines.at(-1) ?? null, cutAfter))
      .toSorted(lastOpenedFirst);
  }

  async unfinished() {
    return (await this.listCases()).filter(isUnfinished);
  }

  async settings() {
    return readSettings(structuredClone(this.#settings));
  }

  async putSettings(settings: Settings): Promise<void> {
    this.#settings = structuredClone(settings);
  }

  async preparedCases(): Promise<CaseFile[]> {
    const byReference = [...this.#prepared].toSorted(([a], [b]) => (a < b ? -1 : 1));
    return structuredClone(byReference.map(([, facts]) => facts));
  }

  async prepareCase(facts: CaseFile): Promise<void> {
    this.#prepared.set(facts.reference, structuredClone(facts));
  }

  async dropPrepared(reference: string): Promise<void> {
    this.#prepared.delete(reference);
  }

  async signingKeys(): Promise<CryptoKeyPair> {
    return (this.#keys ??= makeKey());
  }

  close(): void {
    this.#writing.clear();
  }
}
