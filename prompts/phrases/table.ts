/** Every phrase, in the parts a sentence is made of: tooth, words, reason. */
import {
  type Command,
  type CommandType,
  type Reason,
  REASONS,
  STEPS,
  TEETH,
} from '../../machines/contract/index.ts';
import { toothDigits, toothName } from '../catalogue/numbers.ts';
import { parseJsgf } from '../grammar/index.ts';
import { sentencesOf } from '../grammar/sentences.ts';
import { BEGIN_SAYS, SHARED_BEGINS } from './begins.ts';
import { ADDING, CONTROL, NOTING } from './control.ts';
import { DEVIATIONS, OVERRIDES, REASON_ROWS, REASON_SAYS } from './deviations.ts';
import { FOUND } from './findings.ts';
import { FINISH_SAYS, SHARED_FINISHES } from './finishes.ts';
import { row, type Row } from './row.ts';

/** A row with its sentences and the name of its rule in the grammar. */
export interface Phrase extends Row {
  readonly rule: string;
  readonly texts: readonly string[];
}

/** Commands that can be addressed to a tooth: "tooth four six, silane on". */
const ADDRESSED = [
  'begin',
  'finish',
  'short',
  'skip',
  'soil',
  'counts-clean',
  'find',
  'start-over',
] as const satisfies readonly CommandType[];
type Addressed = Extract<Command, { type: (typeof ADDRESSED)[number] }>;

/** Whether a command can be for one tooth. */
export function isAddressed(command: Command): command is Addressed {
  const types: readonly CommandType[] = ADDRESSED;
  return types.includes(command.type);
}

/** The sentences of one JSGF expansion. */
export function expand(says: string): readonly string[] {
  return sentencesOf(parseJsgf(`#JSGF V1.0; grammar one; public <one> = ${says};`), 'one');
}

const slug = (text: string): string => text.replace(/[^a-z0-9]+/gi, '-').replace(/^-|-$/g, '');

function ruleName({ commands }: Row): string {
  const [{ type, ...rest }] = commands;
  const parts = Object.values<string | number | undefined>(rest).map(String);
  return slug([type, ...(commands.length > 1 ? ['due', ...parts] : parts)].join('-'));
}

const ROWS: readonly Row[] = [
  ...CONTROL,
  ...ADDING,
  ...NOTING,
  ...STEPS.map((step) => row(BEGIN_SAYS[step], { type: 'begin', step })),
  ...SHARED_BEGINS,
  ...STEPS.map((step) => row(FINISH_SAYS[step], { type: 'finish', step })),
  ...SHARED_FINISHES,
  ...FOUND,
  ...DEVIATIONS,
  ...OVERRIDES,
  ...REASON_ROWS,
];

/** Every row of words; teeth, reasons after them and lot numbers are parts of their own. */
export const PHRASES: readonly Phrase[] = ROWS.map((one, i) => {
  const name = ruleName(one);
  const before = ROWS.slice(0, i).filter((other) => ruleName(other) === name).length;
  const rule = before === 0 ? name : `${name}-${before + 1}`;
  return { ...one, rule, texts: expand(one.says) };
});

/** How a tooth is named. */
export function toothTexts(tooth: string): readonly string[] {
  return [`tooth ${toothDigits(tooth)}`, toothName(tooth)];
}

/** Every way to name a tooth, and the tooth. */
export const TOOTH_TEXTS: ReadonlyMap<string, string> = new Map(
  TEETH.flatMap((tooth) => toothTexts(tooth).map((text) => [text, tooth] as const)),
);

/** A tooth before words for it may be its two digits alone: "one one, silane on". Never by themselves. */
export const PAIR_TEXTS: ReadonlyMap<string, string> = new Map(
  TEETH.map((tooth) => [toothDigits(tooth), tooth] as const),
);

/** Every way to give a reason, and the reason. */
export const REASON_TEXTS: ReadonlyMap<string, Reason> = new Map(
  REASONS.flatMap((reason) => expand(REASON_SAYS[reason]).map((text) => [text, reason] as const)),
);
