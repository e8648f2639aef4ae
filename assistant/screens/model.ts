/** What the screens show, and what they can ask for. Plain data: `render` is a function of it. */
import type {
  Call,
  ChairView,
  Closing,
  Command,
  Entry,
  Header,
  Live,
  Plan,
  Way,
} from '../../machines/contract/index.ts';
import type { CaseDraft, ShelfDraft } from './draft.ts';

export type Page = 'desk' | 'chairside' | 'record' | 'settings';

/** What is wrong with the microphone or the engine; each has words that say what to do. */
export type EarTrouble = 'denied' | 'missing' | 'busy' | 'lost' | 'silent' | 'engine';

/** What the ear is doing. */
export type EarView =
  /** Nobody has allowed the microphone yet, or it was switched off. */
  | { readonly kind: 'off' }
  /** Loading the recogniser; `part` from 0 to 1, null when unknown. */
  | { readonly kind: 'starting'; readonly part: number | null }
  /** Waits for the call sign. */
  | { readonly kind: 'asleep' }
  /** The call sign was heard; takes commands without it for `leftMs` more. */
  | { readonly kind: 'awake'; readonly leftMs: number }
  /** Somebody is speaking to it now. */
  | { readonly kind: 'hearing' }
  /** Seatcall is speaking, and does not obey what it hears of itself. */
  | { readonly kind: 'speaking' }
  | { readonly kind: 'trouble'; readonly trouble: EarTrouble };

/** The last thing that came in by any way, and what became of it. */
export interface LastHeard {
  /** The phrase heard, the text typed, or the button's or key's label. */
  readonly words: string;
  readonly via: Way;
  /** 0 to 1; null where nothing was recognised from sound. */
  readonly score: number | null;
  readonly became: 'accepted' | 'asked' | 'refused' | 'not-understood' | 'not-addressed';
}

/** The case at the chair. */
export interface ChairState {
  readonly view: ChairView;
  readonly live: Live;
  readonly lastHeard: LastHeard | null;
  readonly lastCall: Call | null;
  /** What was typed in this session, oldest first. */
  readonly typedHistory: readonly string[];
}

/** Something wrong with the case facts. */
export interface Problem {
  /** Dotted path into the case file, such as `units.0.prep.heightMm`; empty for the whole file. */
  readonly path: string;
  /** What is wrong and what is allowed. */
  readonly message: string;
}

/** An invented case that ships with Seatcall. */
export interface ExampleRow {
  readonly id: string;
  readonly title: string;
}

/** A case the browser keeps. */
export interface CaseRow {
  readonly id: string;
  readonly reference: string;
  readonly invented: boolean;
  /** Wall clock, ISO 8601 in UTC. */
  readonly opened: string;
  /** Null while unfinished. */
  readonly closed: string | null;
  /** The two digits of each unit's tooth. */
  readonly teeth: readonly string[];
  readonly entries: number;
  readonly deviations: number;
}

/** A file that was not taken in. */
export interface RefusedFile {
  readonly name: string;
  readonly reason: string;
  /** The entry where the record stops being true; null when it is not about one entry. */
  readonly entry: number | null;
}

export interface DeskState {
  readonly draft: CaseDraft;
  /** Made from the draft; null while the facts have problems. */
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  readonly examples: readonly ExampleRow[];
  readonly cases: readonly CaseRow[];
  readonly refusedFile: RefusedFile | null;
}

/** How a record's chain stands. */
export type ChainView =
  | { readonly kind: 'checking' }
  /** `signed`: the closing line's signature is good; false while the case is unfinished. */
  | { readonly kind: 'whole'; readonly signed: boolean }
  | { readonly kind: 'broken'; readonly entry: number; readonly reason: string };

export interface RecordState {
  readonly id: string;
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly closing: Closing | null;
  readonly chain: ChainView;
}

/** The opt-in wake word of a practice that holds its own access key. */
export interface WakeWordSettings {
  readonly accessKey: string;
  /** File names of what was loaded; null when nothing was. */
  readonly model: string | null;
  readonly keyword: string | null;
}

export interface Settings {
  readonly callSign: string;
  /** Seconds after a call sign in which commands need none. */
  readonly followUpS: number;
  /** 0 to 1. */
  readonly volume: number;
  /** `KeyboardEvent.code` of the pedal's key; null when there is no pedal. */
  readonly pedalKey: string | null;
  /** Single letters act as commands at the chair. */
  readonly letterKeys: boolean;
  /** Null when the ear was built without this adapter. */
  readonly wakeWord: WakeWordSettings | null;
  readonly shelf: ShelfDraft;
}

export interface SettingsState {
  readonly values: Settings;
  /** Why the call sign does not serve; null when it does. */
  readonly callSignProblem: string | null;
  /** Problems of the practice's shelf, paths starting with `shelf.`. */
  readonly problems: readonly Problem[];
  /** Text of the NOTICE file. */
  readonly notice: string;
}

export interface AppState {
  readonly page: Page;
  readonly ear: EarView;
  /** Input level, 0 to 1. */
  readonly level: number;
  readonly chair: ChairState | null;
  readonly desk: DeskState;
  readonly record: RecordState | null;
  readonly settings: SettingsState;
  /** The list of keys is shown. */
  readonly keysShown: boolean;
}

/** All a screen can ask for. Every method may be called at any time; none answers. */
export interface Actions {
  go(page: Page): void;
  /** A command by button or key; it takes the one way through. `label` is what was pressed. */
  command(command: Command, via: 'touch' | 'key', label: string): void;
  typed(text: string): void;
  /** Asks for the microphone, or lets go of it. */
  listen(on: boolean): void;
  showKeys(on: boolean): void;
  /** The draft as it stands after an edit. */
  editDraft(draft: CaseDraft): void;
  /** An emptied draft with the practice's shelf. */
  clearDraft(): void;
  loadCase(file: File): void;
  loadExample(id: string): void;
  /** Opens the drafted case: microphone permission, then chairside. */
  openCase(): void;
  resumeCase(id: string): void;
  showRecord(id: string): void;
  exportRecord(id: string): void;
  importRecord(file: File): void;
  dismissRefusedFile(): void;
  print(): void;
  editSettings(change: Partial<Settings>): void;
  /** Says a sentence at the volume set. */
  tryVoice(): void;
  loadWakeWordFile(part: 'model' | 'keyword', file: File): void;
}
