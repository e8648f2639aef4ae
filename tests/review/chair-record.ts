import { makePlan } from '../../machines/plan/index.ts';
import type { Entry, Header } from '../../machines/contract/index.ts';
import type { Operatory } from '../chair/operatory.ts';

const OPENED = Date.UTC(2026, 1, 3, 9, 0, 0);

/** A record that is not chained: what the review reads once a file has been verified. */
export interface ChairRecord {
  readonly header: Header;
  readonly entries: readonly Entry[];
}

/** What was said at an operatory, as header and entries; invented, digests left blank. */
export function chairRecord(chair: Operatory): ChairRecord {
  const { case: caseFile } = chair.state;
  const blank = '0'.repeat(64);
  return {
    header: {
      kind: 'header',
      format: 'seatcall-record/1',
      invented: true,
      software: 'seatcall test',
      opened: new Date(OPENED).toISOString(),
      case: caseFile,
      plan: makePlan(caseFile),
      planDigest: blank,
    },
    entries: chair.told.map(({ at, tooth, step, command, outcome }, i) => ({
      kind: 'entry',
      n: i + 1,
      prev: blank,
      stamp: {
        at,
        wall: new Date(OPENED + at).toISOString(),
        mono: at,
        who: 'assistant',
        via: 'typed',
        heard: null,
      },
      tooth,
      step,
      command,
      outcome,
    })),
  };
}
