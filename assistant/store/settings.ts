import { z } from 'zod';
import { MOST_OWN } from '../../prompts/phrases/index.ts';
import { Shelf } from '../../machines/contract/index.ts';

/** What a practice needs to use its own wake-word engine; files as base64. */
const WakeWord = z.strictObject({
  accessKey: z.string().trim().min(1),
  /** A file of the practice's own, or one of those that come with the engine, by its name. */
  keyword: z.union([
    z.strictObject({ label: z.string().trim().min(1).max(80), base64: z.base64() }),
    z.strictObject({ builtin: z.string().trim().min(1).max(40) }),
  ]),
  model: z.strictObject({ label: z.string().trim().min(1).max(80), base64: z.base64() }),
  /** 0 (misses more) to 1 (answers more to what it should not). */
  sensitivity: z.number().min(0).max(1).default(0.5),
});

/** What a practice sets once for this browser. */
export const Settings = z.object({
  /** The word that addresses Seatcall: one word, lower case; null for the built-in one. */
  callSign: z
    .string()
    .regex(/^[a-z]{3,20}$/)
    .nullable()
    .default(null),
  /** Loudness of the calls, 0 to 1. */
  volume: z.number().min(0).max(1).default(0.8),
  /** Seconds after a call sign, a command or a question in which commands need no call sign. */
  followUpS: z.number().min(2).max(20).default(8),
  /** The chosen microphone, as the browser knows it; null for the system's choice. */
  microphone: z
    .strictObject({ id: z.string().min(1).max(500), label: z.string().min(1).max(500) })
    .nullable()
    .default(null),
  /** `KeyboardEvent.code` of the pedal's key. */
  pedalKey: z.string().min(1).max(40).nullable().default(null),
  /** Single letters act as commands at the chair. */
  letterKeys: z.boolean().default(true),
  /** Years for which a record has to be kept after its last line; local rules decide. */
  retentionYears: z.int().min(1).max(100).nullable().default(null),
  wakeWord: WakeWord.nullable().default(null),
  /** The practice's own words, and the built-in phrase each stands for. */
  ownPhrases: z
    .array(z.strictObject({ words: z.string().min(1).max(80), means: z.string().min(1).max(80) }))
    .max(MOST_OWN)
    .default([]),
  /** The practice's materials, with which a new case starts. */
  shelf: Shelf.nullable().default(null),
});
export type Settings = z.infer<typeof Settings>;

/** What was kept, and the names of those settings that were no longer fit and went back to their defaults. */
export interface ReadSettings {
  readonly settings: Settings;
  readonly dropped: readonly string[];
}

/** Reads kept settings; what is missing or unfit becomes its default, so that the app always starts. */
export function readSettings(kept: unknown): ReadSettings {
  if (kept === undefined) return { settings: Settings.parse({}), dropped: [] };
  const parsed = Settings.safeParse(kept);
  if (parsed.success) return { settings: parsed.data, dropped: [] };
  const dropped = [...new Set(parsed.error.issues.map(({ path }) => String(path[0] ?? 'all')))];
  const fit = Object.entries(typeof kept === 'object' && kept !== null ? kept : {}).filter(
    ([name]) => !dropped.includes(name),
  );
  return { settings: Settings.parse(Object.fromEntries(fit)), dropped };
}
