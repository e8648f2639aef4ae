/**
 * `npm run laws`: every reachable standing of the unit machine, for every material and kind of unit, judged
 * by the laws of the record. `npm run laws -- 2/5` does the second fifth of the work, `-- 1/1 2` lets two
 * dwells run at once, `-- 1/1 1 'tooth side'` looks at one part only.
 */
import type { UnitContext } from '../../../machines/seating/index.ts';
import { combinations } from '../../chair/combinations.ts';
import { mixedBridges } from '../../chair/mixed.ts';
import { variants } from './variants.ts';
import { sweep } from './sweep.ts';
import { arrival, type PartName, printOf, STEPS_OF } from './parts.ts';

const PARTS: readonly PartName[] = ['inside', 'tooth side', 'cement'];
const [slice = '1', slices = '1'] = (process.argv[2] ?? '1/1').split('/');
const together = process.argv[3] ?? '1';
const only = process.argv[4];

interface Same {
  readonly part: PartName;
  readonly context: UnitContext;
  readonly units: Set<string>;
}

const same = new Map<string, Same>();
let units = 0;
const mixed = mixedBridges().map((caseFile) => ({
  material: 'mixed retainers',
  kind: 'bridge',
  case: caseFile,
}));
for (const { material, kind, case: caseFile } of [...combinations(), ...mixed]) {
  for (const variant of variants(caseFile)) {
    units += 1;
    const { context } = arrival(variant).snapshot;
    for (const part of PARTS) {
      const print = printOf(part, context);
      const known = same.get(print) ?? { part, context, units: new Set<string>() };
      known.units.add(`${material}, ${kind}`);
      same.set(print, known);
    }
  }
}
const all = [...same.values()];
console.log(
  `${units} units (material, kind, substrate, cement, history) are ${all.length} different ones to a part: ` +
    PARTS.map((part) => `${part} ${all.filter((one) => one.part === part).length}`).join(', '),
);

const mine = all
  .filter(({ part }) => only === undefined || part === only)
  .filter((_, n) => n % Number(slices) === Number(slice) - 1);
const totals = new Map<string, { standings: number; judged: number; parts: number }>();
const broken: string[] = [];
let [standings, tried, judged] = [0, 0, 0];
for (const { part, context, units: alike } of mine) {
  const began = Date.now();
  const swept = sweep(part, context, Number(together));
  standings += swept.standings;
  tried += swept.tried;
  judged += swept.judged;
  broken.push(...swept.broken.map((how) => `${part}, ${[...alike][0] ?? ''}: ${how}`));
  for (const unit of alike) {
    const sum = totals.get(unit) ?? { standings: 0, judged: 0, parts: 0 };
    totals.set(unit, {
      standings: sum.standings + swept.standings,
      judged: sum.judged + swept.judged,
      parts: sum.parts + 1,
    });
  }
  const seconds = ((Date.now() - began) / 1000).toFixed(1);
  console.log(
    `${part}, ${STEPS_OF[part].length} steps, as ${[...alike].slice(0, 2).join(' / ')}: ${swept.standings} standings, ${swept.judged} of ${swept.tried} tries taken, ${swept.broken.length} broken, ${seconds} s`,
  );
}
console.log('\nmaterial, kind: standings over its parts, events judged');
for (const [unit, sum] of [...totals].toSorted(([a], [b]) => (a < b ? -1 : 1))) {
  console.log(`${unit}: ${sum.standings} in ${sum.parts} parts, ${sum.judged} judged`);
}
console.log(
  `\n${standings} different standings, ${tried} events tried, ${judged} taken and judged, ${broken.length} laws broken`,
);
for (const how of broken) console.log(how);
if (broken.length > 0) process.exitCode = 1;
