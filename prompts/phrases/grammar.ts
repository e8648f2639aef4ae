/** The phrases as JSGF: all of them, or those that mean something now. */
import { type Command, type CommandType, type Live, TEETH } from '../../machines/contract/index.ts';
import { toothDigits } from '../catalogue/numbers.ts';
import { LOT_RULES } from './lots.ts';
import { type OwnPhrase, withOwn } from './own.ts';
import { isAddressed, type Phrase, PHRASES, toothTexts } from './table.ts';

/** Whether a command is live: "stop" always is, and a named step only by its own list. */
export function isLive(command: Command, live: Live): boolean {
  if (command.type === 'stop') return true;
  if (command.type === 'begin') return live.begins.includes(command.step);
  if (command.type === 'finish' && command.step !== undefined) {
    return live.finishes.includes(command.step);
  }
  return live.commands.includes(command.type);
}

/** The rule of the phrases that mean nothing now. */
export const ELSEWHERE_RULE = 'elsewhere';

const refs = (phrases: readonly Phrase[]): string =>
  phrases.map(({ rule }) => `<${rule}>`).join(' | ');

function jsgf(
  phrases: readonly Phrase[],
  types: (type: CommandType) => boolean,
  teeth: readonly string[],
  elsewhere: readonly Phrase[] = [],
): string {
  // Digits alone name a tooth only where there are several to name: one unit keeps its grammar small.
  const address = types('unit') ? '[<tooth> | <pair>] ' : '[<tooth>] ';
  const addressed = phrases.filter(({ commands }) => isAddressed(commands[0]));
  const groups: readonly (readonly [before: string, members: readonly Phrase[], after: string])[] =
    [
      ['', phrases.filter((one) => !addressed.includes(one) && !one.takesReason), ''],
      ['', phrases.filter((one) => !addressed.includes(one) && one.takesReason), ' [<reason>]'],
      [address, addressed.filter((one) => !one.takesReason), ''],
      [address, addressed.filter((one) => one.takesReason), ' [<reason>]'],
    ];
  const options = groups
    .filter(([, members]) => members.length > 0)
    .map(([before, members, after]) => `${before}(${refs(members)})${after}`);
  const text = options.join(' ');
  const withElsewhere = elsewhere.length > 0;
  const withLots = types('lot');
  const withTeeth = types('unit') || text.includes('<tooth>') || withElsewhere;
  const reasons = PHRASES.filter(({ commands: [{ type }] }) => type === 'reason');
  const withReasons = text.includes('<reason>');
  // A reason's own rule may be live already, or only as the end of another phrase.
  const rules = new Set([...phrases, ...(withReasons ? reasons : []), ...elsewhere]);
  const lines = [
    `public <phrase> = ${[
      ...options,
      ...(types('unit') ? ['<tooth>'] : []),
      ...(withLots ? ['<lot>'] : []),
    ].join('\n  | ')}`,
    ...(withTeeth ? [`<tooth> = ${teeth.flatMap(toothTexts).join(' | ')}`] : []),
    ...(text.includes('<pair>') ? [`<pair> = ${teeth.map(toothDigits).join(' | ')}`] : []),
    ...(withReasons ? [`<reason> = ${refs(reasons)}`] : []),
    ...(withElsewhere ? [`<${ELSEWHERE_RULE}> = [<tooth>] (${refs(elsewhere)})`] : []),
    ...(withLots ? LOT_RULES : []),
    ...[...rules].map(({ rule, texts }) => `<${rule}> = ${texts.join(' | ')}`),
  ];
  return `#JSGF V1.0 UTF-8 en;\ngrammar seatcall;\n${lines.map((line) => `${line};\n`).join('')}`;
}

/** Every phrase there is, as JSGF with the public rule `<phrase>`. */
export function wholeGrammar(): string {
  return jsgf(PHRASES, () => true, TEETH);
}

/**
 * The phrases that mean something now, as JSGF with the public rule `<phrase>`; "stop" is always
 * among them. All others stand in the rule `<elsewhere>`: said out of turn they must be heard as what
 * they are, or "etch off" would be bent into the "etch on" that is live. `teeth` are
 * those of the case (ISO 3950, two digits), all if left out; `own` are the practice's own phrases.
 */
export function grammarFor(
  live: Live,
  teeth: readonly string[] = TEETH,
  own: readonly OwnPhrase[] = [],
): string {
  const phrases = PHRASES.map((phrase) => withOwn(phrase, own));
  const now = phrases.filter(({ commands }) => commands.some((command) => isLive(command, live)));
  return jsgf(
    now,
    (type) => live.commands.includes(type),
    teeth,
    phrases.filter((phrase) => !now.includes(phrase)),
  );
}
