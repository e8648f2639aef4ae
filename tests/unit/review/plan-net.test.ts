import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../machines/plan/index.ts';
import { NotASeating, planNet } from '../../../machines/review/net/plan-net.ts';
import type { ProcessNet } from '../../../machines/review/net/process-net.ts';
import { DISILICATE, inventedCase, SHELF, ZIRCONIA } from '../../chair/cases.ts';
import { STANDARD_CASES } from '../../chair/starts.ts';
import { explore } from '../../review/state-space.ts';

const netOf = (caseFile: (typeof STANDARD_CASES)[number]): ProcessNet =>
  planNet(caseFile, makePlan(caseFile));

/** One of each shape: the same plan twice teaches nothing. */
function shapes(): readonly (readonly [name: string, net: ProcessNet])[] {
  const singles = STANDARD_CASES.filter(({ units }) => units.length === 1);
  const alone = singles.map((caseFile) => ({ ...caseFile, team: 'solo' as const }));
  const bare = inventedCase([{ ...ZIRCONIA, provisionalCement: 'none' }], {
    shelf: { ...SHELF, cleaner: null },
  });
  const found = new Map<string, readonly [string, ProcessNet]>();
  for (const caseFile of [...singles, ...alone.slice(0, 4), bare]) {
    const net = netOf(caseFile);
    const name = `${caseFile.units[0]?.material}, ${caseFile.units[0]?.cement}, ${caseFile.team}`;
    found.set(JSON.stringify(net), [`${name} ${found.size}`, net]);
  }
  return [...found.values()];
}

describe('the net of a plan is sound', () => {
  // Soundness of a workflow net: the end can be reached from everywhere, nothing is left over when
  // it is, nothing is dead (van der Aalst W. J Circuits Syst Comput 1998;8:21-66, from memory).
  // One token a component, so that nothing can be left over.
  test.each(shapes())('%s', (_name, net) => {
    const { markings, stuck, dead } = explore(net);
    expect(markings).toBeGreaterThan(200);
    expect([stuck, dead]).toEqual([0, []]);
  });

  test('a net with a way into a corner is found out', () => {
    const net = netOf(inventedCase([ZIRCONIA]));
    const dry = net.transitions.filter(({ label }) => label !== '46 intaglio-dry');
    expect(explore({ ...net, transitions: dry }).stuck).toBeGreaterThan(0);
  });
});

test('every step of a plan and of its spare ones is an activity of the net', () => {
  for (const caseFile of STANDARD_CASES) {
    const plan = makePlan(caseFile);
    const labels = new Set(planNet(caseFile, plan).transitions.map(({ label }) => label));
    const missing = plan.units.flatMap(({ tooth, steps, spare }) =>
      [...steps, ...spare]
        .map(({ id, scope }) => (scope === 'case' ? id : `${tooth} ${id}`))
        .filter((label) => !labels.has(label)),
    );
    expect(missing).toEqual([]);
  }
});

test('intaglio and prep are two pairs of hands with two, and one after the other alone', () => {
  const two = netOf(inventedCase([DISILICATE]));
  const alone = netOf(inventedCase([DISILICATE], { team: 'solo' }));
  const reads = (net: ProcessNet): boolean =>
    net.transitions.some(
      ({ label, arcs }) =>
        label === '15 isolate' &&
        arcs.some(({ component }) => net.components[component]?.name === '15 intaglio'),
    );
  expect([reads(two), reads(alone)]).toEqual([false, true]);
});

test('a plan without a seat is no seating', () => {
  const caseFile = inventedCase([ZIRCONIA]);
  const plan = makePlan(caseFile);
  const units = plan.units.map((unit) => ({
    ...unit,
    steps: unit.steps.filter(({ id }) => id !== 'seat'),
  }));
  expect(() => planNet(caseFile, { ...plan, units })).toThrow(
    new NotASeating('The plan of lower right first molar has no step seat.'),
  );
});
