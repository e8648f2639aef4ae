/** What the practice sets once, shown and kept. */
import { checkCase } from '../../machines/plan/index.ts';
import { Shelf } from '../../machines/contract/index.ts';
import { callWords } from '../../prompts/catalogue/index.ts';
import { type OwnPhrase, ownPhraseProblem, tidyWords } from '../../prompts/phrases/index.ts';
import { ATTENTION } from '../ear/attention.ts';
import { readCallSign } from '../ear/held-grammar.ts';
import type { PorcupineSettings } from '../ear/wake/index.ts';
import { shelfCandidate } from '../screens/draft-shelf.ts';
import type { AppState, Settings as ShownSettings } from '../screens/model.ts';
import type { FieldProblem } from '../screens/problem.ts';
import type { Settings, Store } from '../store/index.ts';
import type { Board } from './board.ts';
import { shownSettings } from './first-state.ts';

/** Why a word can't be the call sign; null when it can. */
export function callSignProblem(word: string): string | null {
  try {
    const sign = readCallSign(word);
    if (sign.includes(' ') || sign.length < 3) return 'One word of three letters or more.';
    if (callWords().has(sign)) {
      return 'Seatcall says this word itself and would address itself; choose another.';
    }
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

const toBytes = (base64: string): Uint8Array =>
  Uint8Array.from(atob(base64), (unit) => unit.charCodeAt(0));

const toBase64 = (bytes: Uint8Array): string =>
  btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));

export class Practice {
  readonly #board: Board;
  readonly #store: Store;
  readonly #onChange: () => void;
  #kept: Settings;
  /** Files loaded before their other half or the key was given. */
  #model: { readonly label: string; readonly base64: string } | null;
  #keyword: { readonly label: string; readonly base64: string } | null;

  constructor(board: Board, store: Store, kept: Settings, onChange: () => void) {
    this.#board = board;
    this.#store = store;
    this.#kept = kept;
    this.#onChange = onChange;
    this.#model = kept.wakeWord?.model ?? null;
    const keyword = kept.wakeWord?.keyword;
    this.#keyword = keyword !== undefined && 'label' in keyword ? keyword : null;
  }

  /** The wake-word engine's settings, if the practice gave all of them. */
  get wakeWord(): PorcupineSettings | null {
    const { wakeWord } = this.#kept;
    if (wakeWord === null) return null;
    return {
      accessKey: wakeWord.accessKey,
      model: toBytes(wakeWord.model.base64),
      keyword:
        'builtin' in wakeWord.keyword
          ? { kind: 'builtin', name: wakeWord.keyword.builtin }
          : {
              kind: 'file',
              name: wakeWord.keyword.label,
              bytes: toBytes(wakeWord.keyword.base64),
            },
      sensitivity: wakeWord.sensitivity,
    };
  }

  /** The practice's own phrases that serve. */
  get ownPhrases(): readonly OwnPhrase[] {
    return this.#kept.ownPhrases;
  }

  /** Shows a change, and keeps what of it is fit. */
  async edit(change: Partial<ShownSettings>): Promise<void> {
    const values = { ...this.#board.state.settings.values, ...change };
    const problem = callSignProblem(values.callSign);
    const shelf = shelfOf(values);
    const callSign = problem === null ? readCallSign(values.callSign) : this.#kept.callSign;
    const own = judgedOwn(values.ownPhrases, callSign ?? ATTENTION.callSign);
    this.#show({
      values,
      callSignProblem: problem,
      ownProblems: own.map((one) => one.problem),
      problems: shelf.problems,
    });
    const { followUpS, volume, microphone, pedalKey, letterKeys, retentionYears } = values;
    this.#kept = {
      ...this.#kept,
      followUpS,
      volume,
      microphone,
      pedalKey,
      letterKeys,
      retentionYears,
      callSign,
      ownPhrases: own.filter((one) => one.problem === null).map(({ phrase }) => phrase),
      shelf: shelf.fit ?? this.#kept.shelf,
      wakeWord: this.#wakeWordOf(values),
    };
    this.#onChange();
    await this.#store.putSettings(this.#kept);
  }

  async loadWakeWordFile(part: 'model' | 'keyword', file: File): Promise<void> {
    const loaded = {
      label: file.name.slice(0, 80),
      base64: toBase64(new Uint8Array(await file.arrayBuffer())),
    };
    if (part === 'model') this.#model = loaded;
    else this.#keyword = loaded;
    const { wakeWord } = this.#board.state.settings.values;
    if (wakeWord === null) return;
    await this.edit({ wakeWord: { ...wakeWord, [part]: loaded.label } });
  }

  /** What is kept, shown again. */
  reset(): void {
    this.#show({
      values: shownSettings(this.#kept),
      callSignProblem: null,
      ownProblems: [],
      problems: [],
    });
  }

  #wakeWordOf({ wakeWord }: ShownSettings): Settings['wakeWord'] {
    const accessKey = wakeWord?.accessKey.trim() ?? '';
    if (wakeWord === null || accessKey === '') return null;
    const builtin = wakeWord.builtin.trim();
    const keyword = builtin === '' ? this.#keyword : { builtin };
    if (this.#model === null || keyword === null) return null;
    return {
      accessKey,
      model: this.#model,
      keyword,
      sensitivity: wakeWord.sensitivity,
    };
  }

  #show(change: Partial<AppState['settings']>): void {
    this.#board.set({ settings: { ...this.#board.state.settings, ...change } });
  }
}

/** Each own phrase as the ear would take it, and why it does not serve. A row nobody has filled in is nothing. */
function judgedOwn(
  rows: readonly OwnPhrase[],
  callSign: string,
): readonly { readonly phrase: OwnPhrase; readonly problem: string | null }[] {
  const phrases = rows.map(({ words, means }) => ({ words: tidyWords(words), means }));
  return phrases.map((phrase, at) => ({
    phrase,
    problem: ownPhraseProblem(phrase, phrases.toSpliced(at, 1), callSign),
  }));
}

/** The shelf of the form, if it is fit; else what is wrong with it. A shelf nobody has filled in is neither. */
function shelfOf(values: ShownSettings): {
  readonly fit: Shelf | null;
  readonly problems: readonly FieldProblem[];
} {
  const candidate = shelfCandidate(values.shelf);
  const parsed = Shelf.safeParse(candidate);
  if (parsed.success) return { fit: parsed.data, problems: [] };
  const untouched = values.shelf.cements.every(({ label }) => label === '');
  if (untouched) return { fit: null, problems: [] };
  const checked = checkCase({ shelf: candidate });
  const problems = checked.ok ? [] : checked.problems;
  return { fit: null, problems: problems.filter(({ field }) => field.startsWith('shelf')) };
}
