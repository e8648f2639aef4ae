import { describe, expect, test } from 'vitest';
import type { CaseInput, StepId } from '../../machines/contract/index.ts';
import { STEPS } from '../../machines/contract/index.ts';
import { unitMachine } from '../../machines/seating/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';
import { Operatory } from '../chair/operatory.ts';
import { law1, law11, law2, law3, law4, law5, law6, law7 } from '../laws/laws.ts';
import { SECOND, WITHOUT_DWELL } from './second.ts';
import { actOf, answers, eventsFor, speaking, type Standing, walk, type Walk } from './walk.ts';

type Unit = CaseInput['units'][number];
const LAWS = [law1, law2, law3, law4, law5, law6, law7, law11];

const between = (first: StepId, last: StepId): readonly StepId[] =>
  STEPS.slice(STEPS.indexOf(first), STEPS.indexOf(last) + 1);
const MOUTH: readonly StepId[] = [
  'provisional-off',
  'prep-clean',
  'try-in',
  'fit-paste',
  'take-out',
];
/** Each part of the machine with the steps that move it, walked from where the plan first comes to it. */
const PARTS = [
  { part: 'inside', from: 'try-in', steps: [...MOUTH, ...between('intaglio-rinse', 'primer-dry')] },
  {
    part: 'tooth side',
    from: 'provisional-off',
    steps: [...MOUTH, ...between('isolate', 'prep-moist')],
  },
  {
    part: 'cement',
    from: 'mix',
    steps: ['try-in', 'take-out', ...between('mix', 'isolation-out')],
  },
] as const satisfies readonly { part: string; from: StepId; steps: readonly StepId[] }[];

const bare = {
  abrasion: null,
  cleaner: null,
  hydrofluoricAcid: null,
  phosphoricAcid: null,
  silane: null,
  phosphatePrimer: null,
  adhesive: null,
  light: null,
};
const { shelf } = inventedCase([ZIRCONIA]);
/** Invented units that between them reach every branch: both materials, all cements, an empty shelf. */
const UNITS: readonly (readonly [string, Unit, object])[] = [
  ['zirconia, adhesive resin', ZIRCONIA, shelf],
  ['lithium disilicate, adhesive resin', DISILICATE, shelf],
  [
    'zirconia, self-adhesive on enamel',
    { ...ZIRCONIA, cement: 'self-adhesive resin', substrate: 'enamel' },
    shelf,
  ],
  [
    'lithium disilicate, glass ionomer',
    { ...DISILICATE, cement: 'resin-modified glass ionomer' },
    shelf,
  ],
  ['zirconia, bare shelf', ZIRCONIA, { ...shelf, ...bare }],
  ['lithium disilicate, bare shelf', DISILICATE, { ...shelf, ...bare }],
];

interface Walked extends Walk {
  readonly name: string;
  readonly part: string;
  readonly chair: Operatory;
  readonly tooth: string;
  readonly steps: readonly StepId[];
}

const walked: readonly Walked[] = UNITS.flatMap(([name, unit, on]) =>
  PARTS.flatMap(({ part, from, steps }): Walked[] => {
    const chair = new Operatory(inventedCase([unit], { shelf: { ...shelf, ...on } }));
    // A bare shelf never comes to the mix by the plan; its other parts are walked.
    if (part === 'cement' && name.includes('bare')) return [];
    chair.until(from);
    return [{ ...walk(chair, unit.tooth, steps), name, part, chair, tooth: unit.tooth, steps }];
  }),
);

const REGIONS = ['where', 'intaglio', 'prep', 'field', 'cement'] as const;
const stateIn = (standing: Standing, region: string): unknown =>
  Object.entries(standing.value).find(([name]) => name === region)?.[1];

describe('every standing a unit can reach', () => {
  test('each state of each region is visited', () => {
    for (const { name, part, standings } of walked) {
      console.log(`${name}, ${part}: ${standings.length} standings`);
    }
    for (const region of REGIONS) {
      const all = Object.keys(unitMachine.config.states?.[region]?.states ?? {});
      const seen = new Set(
        walked.flatMap(({ standings }) => standings.map((one) => stateIn(one, region))),
      );
      expect(all.filter((state) => state !== 'arriving' && !seen.has(state))).toEqual([]);
    }
  });

  test('the guards see every region as the chart has it', () => {
    const wrong = walked.flatMap(({ standings }) =>
      standings.filter((one) =>
        REGIONS.some((region) => one.context.now[region] !== stateIn(one, region)),
      ),
    );
    expect(wrong.map(({ value }) => value)).toEqual([]);
  });

  test('no law is broken by anything accepted in any of them', () => {
    let tried = 0;
    let accepted = 0;
    const broken: string[] = [];
    for (const { name, chair, tooth, steps, standings, acts } of walked) {
      const unit = chair.state.case.units.find((one) => one.tooth === tooth);
      const plan = chair.state.plan.units.find((one) => one.tooth === tooth);
      if (unit === undefined || plan === undefined) throw new Error('The case has the unit');
      for (const [n, { context }] of standings.entries()) {
        const before = acts[n] ?? [];
        for (const event of eventsFor(context, steps)) {
          tried += 1;
          if (answers(event, context) !== 'accepted') continue;
          accepted += 1;
          const act = { ...actOf(event, before.length), deviation: actOf(event, 0).deviation };
          for (const law of LAWS) {
            const how = law({
              act,
              chair: { acts: before, unit, shelf: chair.state.case.shelf },
              plan,
            });
            // That a long dwell is noted is conduct's doing, which the walk leaves out.
            if (how !== null && !how.includes('nothing notes it')) broken.push(`${name}: ${how}`);
          }
        }
      }
    }
    console.log(`${tried} tries in all standings, ${accepted} accepted`);
    expect([...new Set(broken)]).toEqual([]);
  });
});

describe('every answer a gate can give', () => {
  test('is given somewhere, or always comes second to another', () => {
    const possible = new Set<string>();
    const given = new Set<string>();
    // Metals and abutments, with steps of their own, are gone through by `npm run laws`.
    const held = new Set(
      walked.flatMap(({ standings: [first] }) =>
        [...(first?.context.plan.steps ?? []), ...(first?.context.plan.spare ?? [])].map(
          ({ id }) => id,
        ),
      ),
    );
    for (const { standings, steps } of walked) {
      const own = steps.filter((step) => held.has(step));
      for (const { context } of standings) {
        for (const event of eventsFor(context, own)) {
          given.add(`${event.type}: ${answers(event, context)}`);
          for (const id of speaking(event, context)) possible.add(`${event.type}: ${id}`);
        }
      }
    }
    const types = new Set([...given].map((answer) => answer.split(':')[0] ?? ''));
    console.log(`${given.size} answers of ${types.size} gates given`);
    const never = [...possible].filter((answer) => !given.has(answer));
    expect(never.toSorted()).toEqual(SECOND.flatMap(({ never: all }) => all).toSorted());
    const unaccepted = [...types].filter((type) => !given.has(`${type}: accepted`));
    expect(unaccepted.toSorted()).toEqual(WITHOUT_DWELL.map((step) => `short.${step}`).toSorted());
  });
});
