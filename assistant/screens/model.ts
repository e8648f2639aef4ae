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
import type { DeletionReason } from '../../machines/record/index.ts';
import type { OwnPhrase } from '../../prompts/phrases/index.ts';
import type { MicrophoneChoice } from '../ear/devices.ts';
import type { CaseSummary } from '../store/store.ts';
import type { CaseDraft, ShelfDraft } from './draft.ts';
import type { FieldProblem } from './problem.ts';
import type { FindingsDraft, ReviewState } from './review-model.ts';

export type Page = 'desk' | 'chairside' | 'record' | 'check' | 'review' | 'settings';

/** What the ear is doing. */
export type EarView =
  /** Nobody has allowed the microphone yet, or it was switched off. */
  | { readonly kind: 'off' }
  /** Loading the recogniser; `part` from 0 to 1, null when unknown. */
  | { readonly kind: 'starting'; readonly part: number | null }
  /** Waits for the call sign. */
  | { readonly kind: 'asleep' }
  /** The call sign was heard; commands are taken without it for a while. */
  | { readonly kind: 'awake' }
  /** Somebody is speaking to it now. */
  | { readonly kind: 'hearing' }
  /** Seatcall is speaking, and does not obey what it hears of itself. */
  | { readonly kind: 'speaking' }
  /** Something is wrong; says what, and what to do about it. */
  | { readonly kind: 'trouble'; readonly sentence: string; readonly remedy: string };

/** The last thing that came in by any way, and what became of it. */
export interface LastHeard {
  /** The phrase heard, the text typed, or the button's or key's label. */
  readonly words: string;
  readonly via: Way;
  /** 0 to 1; null where nothing was recognised from sound. */
  readonly score: number | null;
  /** `attention`: the call sign alone. The last four: nothing was done. */
  readonly became:
    | 'accepted'
    | 'asked'
    | 'refused'
    | 'attention'
    | 'out-of-turn'
    | 'not-understood'
    | 'not-addressed'
    | 'too-late';
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

/** An invented case that ships with Seatcall. */
export interface ExampleRow {
  readonly id: string;
  readonly title: string;
}

/** A case written down before its appointment. */
export interface PreparedRow {
  readonly reference: string;
  readonly invented: boolean;
  /** The two digits of each unit's tooth. */
  readonly teeth: readonly string[];
}

/** A file that was not taken in. */
export interface RefusedFile {
  readonly name: string;
  readonly reason: string;
  /** The entry where the record stops being true; null when it is not about one entry. */
  readonly entry: number | null;
  /** It was cut off after this entry, and what it still has can be kept; null otherwise. */
  readonly cutAfter: number | null;
}

/** A file that waits for its passphrase. */
export interface LockedFile {
  readonly name: string;
  /** What is to be done with it once it is open. */
  readonly purpose: 'import' | 'check' | 'review';
  /** Why the last passphrase did not open it; null before the first. */
  readonly problem: string | null;
}

/** A record that was deleted in this browser. */
export interface DeletionRow {
  readonly n: number;
  /** ISO 8601 in UTC. */
  readonly wall: string;
  readonly reason: DeletionReason;
  readonly entries: number;
}

/** How long records are kept, and what became of those that were deleted. */
export interface KeepingState {
  /** Years after a record's last line; null: the practice has set none. */
  readonly years: number | null;
  /** Ids of the cases that are kept longer than that. */
  readonly past: readonly string[];
  readonly deletions: readonly DeletionRow[];
  /** What is wrong with the list of deletions; null when it holds. */
  readonly fault: string | null;
}

/** The half-minute check of how well the room is heard. */
export type RoomView =
  | { readonly stage: 'starting' }
  | { readonly stage: 'quiet'; readonly leftS: number }
  /** `say` is to be read aloud after the call sign; `done` phrases were before it, of `all`. */
  | {
      readonly stage: 'reading';
      readonly say: string;
      readonly done: number;
      readonly all: number;
      readonly leftS: number;
    }
  | {
      readonly stage: 'done';
      readonly verdict: 'good' | 'fair' | 'poor';
      /** Speech above the room, dB; null when no speech came through. */
      readonly marginDb: number | null;
      readonly phrases: readonly {
        readonly words: string;
        readonly outcome: 'right' | 'other' | 'nothing';
      }[];
      readonly remedies: readonly string[];
    };

export interface DeskState {
  readonly draft: CaseDraft;
  /** Made from the draft; null while the facts have problems. */
  readonly plan: Plan | null;
  readonly problems: readonly FieldProblem[];
  readonly examples: readonly ExampleRow[];
  readonly prepared: readonly PreparedRow[];
  readonly cases: readonly CaseSummary[];
  readonly keeping: KeepingState;
  readonly refusedFile: RefusedFile | null;
}

/** How a record's chain stands. */
export type ChainView =
  | { readonly kind: 'checking' }
  /** `signed`: the closing line's signature is good; false while the case is unfinished. */
  | { readonly kind: 'whole'; readonly signed: boolean }
  | { readonly kind: 'broken'; readonly entry: number | null; readonly reason: string };

export interface RecordState {
  readonly id: string;
  /** Of a record whose chain is broken, the part before the break. */
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly closing: Closing | null;
  readonly chain: ChainView;
  /** Its file was cut off after this entry; null for a whole one. */
  readonly cutAfter: number | null;
  /** SHA-256 of the last entry, and of the key that signed the closing, 64 hex digits; null when there is none. */
  readonly head: string;
  readonly fingerprint: string | null;
  /** The last day on which it has to be kept, `2036-02-03`; null when the practice has set no years. */
  readonly keptUntil: string | null;
  /** Earlier records with the same case reference that were deleted here: this one is another. */
  readonly deletedBefore: readonly DeletionRow[];
  /** What is being asked before something is done. */
  readonly asking: 'passphrase' | 'deletion' | null;
  /** Why what was asked for was not done; null when there is nothing to say. */
  readonly problem: string | null;
}

/** A file that was verified without being taken in. */
export interface CheckedFile {
  readonly name: string;
  /** Of a file with a fault, the part before it. */
  readonly header: Header | null;
  readonly entries: readonly Entry[];
  readonly chain: ChainView;
  /** The line at fault, from 1; null when there is none. */
  readonly line: number | null;
  readonly seal: 'closing' | 'checkpoint' | null;
  /** SHA-256 of the key that signed it, 64 hex digits, and whether that is this browser's own. */
  readonly fingerprint: string | null;
  readonly own: boolean;
}

/** The opt-in wake word of a practice that holds its own access key. */
export interface WakeWordSettings {
  readonly accessKey: string;
  /** What was loaded, by name; null when nothing was. */
  readonly model: string | null;
  readonly keyword: string | null;
  /** Name of a keyword that comes with the engine; empty: the file is used. */
  readonly builtin: string;
  /** 0 (misses more) to 1 (more false alarms). */
  readonly sensitivity: number;
}

export interface Settings {
  readonly callSign: string;
  /** Seconds after a call sign in which commands need none. */
  readonly followUpS: number;
  /** 0 to 1. */
  readonly volume: number;
  /** Null for the system's choice. */
  readonly microphone: MicrophoneChoice | null;
  /** `KeyboardEvent.code` of the pedal's key; null when there is no pedal. */
  readonly pedalKey: string | null;
  /** Single letters act as commands at the chair. */
  readonly letterKeys: boolean;
  /** Years for which a record has to be kept; null: not set. */
  readonly retentionYears: number | null;
  /** Null when the ear was built without this adapter. */
  readonly wakeWord: WakeWordSettings | null;
  /** The practice's own words, also those that do not serve yet. */
  readonly ownPhrases: readonly OwnPhrase[];
  readonly shelf: ShelfDraft;
}

export interface SettingsState {
  readonly values: Settings;
  /** Those connected; empty as long as the browser tells of none, such as before it is allowed. */
  readonly microphones: readonly MicrophoneChoice[];
  /** Why the call sign does not serve; null when it does. */
  readonly callSignProblem: string | null;
  /** Why each of the practice's own phrases does not serve; null where it does. */
  readonly ownProblems: readonly (string | null)[];
  /** Problems of the practice's shelf, fields as in a case: `shelf.cements[0].label`. */
  readonly problems: readonly FieldProblem[];
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
  readonly checked: CheckedFile | null;
  readonly review: ReviewState;
  readonly locked: LockedFile | null;
  readonly settings: SettingsState;
  /** The room check under way or done; null before there was one. */
  readonly room: RoomView | null;
  /** What everybody must know now, such as that records are kept in memory only; null for nothing. */
  readonly notice: string | null;
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
  /** Begins the room check anew, or ends it. */
  checkRoom(on: boolean): void;
  showKeys(on: boolean): void;
  dismissNotice(): void;
  /** The draft as it stands after an edit. */
  editDraft(draft: CaseDraft): void;
  /** An emptied draft with the practice's shelf. */
  clearDraft(): void;
  loadCase(file: File): void;
  loadExample(id: string): void;
  /** Keeps the drafted case for its appointment. */
  prepareCase(): void;
  loadPrepared(reference: string): void;
  dropPrepared(reference: string): void;
  /** Opens the drafted case: microphone permission, then chairside. */
  openCase(): void;
  resumeCase(id: string): void;
  showRecord(id: string): void;
  exportRecord(id: string): void;
  /** Exports the shown record under a passphrase. */
  exportSealed(passphrase: string): void;
  importRecord(file: File): void;
  /** Keeps what the refused file still has, marked as incomplete. */
  keepCutFile(): void;
  /** Verifies a file without taking it in. */
  checkFile(file: File): void;
  /** Tries a passphrase on the file, or the files for review, that wait for one. */
  unlockFile(passphrase: string): void;
  dismissLockedFile(): void;
  /** Asks before the shown record is exported under a passphrase or deleted; null: asks no more. */
  askRecord(asking: RecordState['asking']): void;
  /** Deletes the shown record if `typed` is its case reference. */
  deleteRecord(typed: string, reason: DeletionReason): void;
  /** The list of deletions as a file. */
  exportDeletions(): void;
  dismissRefusedFile(): void;
  /** Reviews record files; one of them may be a follow-up file. */
  reviewFiles(files: readonly File[]): void;
  /** Reviews one record kept in this browser, alone, and shows the review. */
  reviewRecord(id: string): void;
  /** Reviews every record kept in this browser. */
  reviewKept(): void;
  chooseReviewed(at: number): void;
  /** Narrows the list of reviewed records. */
  searchReviewed(query: string): void;
  editFindings(findings: FindingsDraft): void;
  clearReview(): void;
  print(): void;
  editSettings(change: Partial<Settings>): void;
  /** Asks for the microphone, so that those connected can be shown by name. */
  nameMicrophones(): void;
  /** Says a sentence at the volume set. */
  tryVoice(): void;
  loadWakeWordFile(part: 'model' | 'keyword', file: File): void;
}
