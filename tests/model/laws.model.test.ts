import { expect, test } from 'vitest';
import { caseOf } from '../../assistant/cli/all-cases.ts';
import type { Wanted } from '../../assistant/cli/all-cases.ts';
import { arrival, type PartName } from '../laws/sweep/parts.ts';
import { sweep } from '../laws/sweep/sweep.ts';
import { variants } from '../laws/sweep/variants.ts';

const CROWN = { kind: 'crown', substrate: 'dentin', cement: 'adhesive-resin-dual' } as const;
/** Invented: a slice of `npm run laws`, which goes through all of them to the end. */
const SLICE: readonly (readonly [PartName, Wanted])[] = [
  ['inside', { ...CROWN, material: 'zirconia-3y' }],
  ['inside', { ...CROWN, material: 'leucite' }],
  ['tooth side', { ...CROWN, material: 'zirconia-3y' }],
  [
    'tooth side',
    {
      ...CROWN,
      material: 'base-metal',
      substrate: 'noble-metal-core',
      cement: 'self-adhesive-resin',
    },
  ],
  ['cement', { ...CROWN, material: 'lithium-disilicate' }],
];
/** Nearest to the arrival first: two seconds of work for all of them together. */
const MOST = 50;

test.each(SLICE)(
  'no law is broken in the standings next to the arrival: %s of %o',
  (part, wanted) => {
    const checked = caseOf(wanted);
    if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
    const [first] = variants(checked.case);
    if (first === undefined) throw new Error('A case has a unit');
    const swept = sweep(part, arrival(first).snapshot.context, 1, MOST);
    expect(swept.broken).toEqual([]);
    expect(swept.standings).toBeGreaterThan(MOST);
  },
);
