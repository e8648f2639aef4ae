/** The weights out of what `confidence.ts` collected, and what they do at several thresholds. */
import { confidence, type Evidence, isUnclear } from '../../assistant/ear/neural/confidence.ts';
import { fitted } from './logistic.ts';

export interface Look {
  readonly evidence: Evidence | null;
  readonly isRight: boolean;
  readonly ms: number;
  /** How likely the model holds it that anything was said, natural logarithm. */
  readonly spoken: number;
  /** Share of the sound that its words leave. */
  readonly unsaid: number;
  /** What its path came to. */
  readonly found: number;
}
export interface Row {
  readonly what: 'command' | 'sign' | 'chatter' | 'noise' | 'near' | 'order' | 'order as chatter';
  readonly room: string;
  readonly fitted: boolean;
  readonly words: string;
  readonly looks: { readonly narrow: Look; readonly wide: Look };
}

const NAMES = ['margin', 'heard', 'spoken'] as const satisfies (keyof Evidence)[];

const featuresOf = (found: Evidence): readonly number[] => NAMES.map((name) => found[name]);

const scoreOf = (found: Evidence, weights: readonly number[]): number => {
  const sum = [...featuresOf(found), 1].reduce(
    (all, value, at) => all + value * (weights[at] ?? 0),
    0,
  );
  return 1 / (1 + Math.exp(-sum));
};

/** Which look counts, as the recogniser has it, with the confidence that `scoring` gives. */
function decided({ looks }: Row, scoring: (found: Evidence) => number) {
  const { narrow, wide } = looks;
  const score = ({ evidence }: Look): number => (evidence === null ? 0 : scoring(evidence));
  const first = score(narrow);
  const again = isUnclear(first, narrow.spoken, narrow.unsaid);
  const look = again && wide.found > narrow.found ? wide : narrow;
  return { isRight: look.isRight, score: score(look), again };
}

/** Fits on the fitted voices' looks and tells what comes of it, and what of the weights in use. */
export function report(rows: readonly Row[], write: (text: string) => void): void {
  const examples = rows
    .filter((row) => row.fitted)
    .flatMap((row) => Object.values(row.looks))
    .flatMap(({ evidence, isRight }) => (evidence === null ? [] : [{ evidence, isRight }]));
  const weights = fitted(
    examples.map(({ evidence }) => featuresOf(evidence)),
    examples.map(({ isRight }) => isRight),
  );
  write(
    `${examples.length} looks; ${[...NAMES, 'bias'].map((name, at) => `${name} ${(weights[at] ?? 0).toFixed(3)}`).join(', ')}\n`,
  );
  tell(rows, (found) => scoreOf(found, weights), write);
  write('with the weights in use\n');
  tell(rows, confidence, write);
  const commands = rows.filter(({ what }) => what === 'command');
  for (const room of new Set(commands.map((row) => row.room))) {
    const those = commands.filter((row) => row.room === room);
    const right = (name: 'narrow' | 'wide'): number =>
      those.filter(({ looks }) => looks[name].isRight).length;
    write(
      `${room.padEnd(16)}${String(those.length).padStart(4)}  found narrowly ${right('narrow')}, widely ${right('wide')}\n`,
    );
  }
}

function tell(
  rows: readonly Row[],
  scoring: (found: Evidence) => number,
  write: (text: string) => void,
): void {
  for (const fittedToo of [true, false]) {
    const mine = rows.filter((row) => row.fitted === fittedToo);
    for (const what of [
      'command',
      'sign',
      'order',
      'near',
      'chatter',
      'noise',
      'order as chatter',
    ]) {
      const those = mine.filter((row) => row.what === what);
      const judged = those.map((row) => decided(row, scoring));
      const told = [0.15, 0.45, 0.7, 0.85].map((threshold) => {
        const over = judged.filter(({ score }) => score >= threshold);
        const right = over.filter(({ isRight }) => isRight).length;
        return `${threshold}: ${right} right, ${over.length - right} wrong`;
      });
      const again = judged.filter((one) => one.again).length;
      write(
        `${fittedToo ? 'fitted' : 'others'} ${what.padEnd(17)}${String(those.length).padStart(4)}  ${told.join(' | ')} | looked again ${again}\n`,
      );
    }
  }
}
