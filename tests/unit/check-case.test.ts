import { MATERIALS } from '../../machines/contract/index.ts';
import { describe, expect, test } from 'vitest';
import type { CaseInput } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import { caseInput, disilicateUnit, fullShelf, zirconiaUnit } from '../case-samples.ts';

const problems = (given: unknown) => {
  const checked = checkCase(given);
  return checked.ok ? [] : checked.problems;
};
const fields = (given: unknown): string[] => problems(given).map(({ field }) => field);
const told = (
  units: readonly (typeof zirconiaUnit)[],
  shelf: Partial<CaseInput['shelf']> = {},
): string[] => fields(caseInput(units, shelf));

test('a sound case comes back with its defaults', () => {
  const checked = checkCase(caseInput([zirconiaUnit, disilicateUnit]));
  expect(checked.ok && [checked.case.roomC, checked.case.team]).toEqual([23, 'assisted']);
});

test('tooth 19: the field, what is allowed, and the other reading', () => {
  expect(problems(caseInput([{ ...zirconiaUnit, tooth: '19' }]))).toEqual([
    {
      field: 'units[0].tooth',
      message:
        '"19" is not allowed; allowed: two digits of ISO 3950: quadrant 1 to 4, then 1 to 8 (upper right first molar is 16); 19 in the Universal system is 36 in ISO 3950',
    },
  ]);
});

test.each([
  ['85', 'the lower right primary second molar (85 in ISO 3950, T in the Universal system)'],
  [74, 'the lower left primary first molar (74 in ISO 3950, L in the Universal system)'],
  ['C', 'the upper right primary canine (53 in ISO 3950, C in the Universal system)'],
])('a primary tooth, %s: out of scope, and why', (tooth, named) => {
  const given = { ...caseInput([]), units: [{ ...zirconiaUnit, tooth }] };
  const [problem, ...more] = problems(given);
  expect([problem?.field, more]).toEqual(['units[0].tooth', []]);
  expect(problem?.message).toContain(`is ${named}: out of scope, because the limits of form`);
});

test('a primary tooth as retainer or pontic: its own field', () => {
  const bridge = { retainers: [{ tooth: '64' }], pontics: ['65'], connectorMm2: 12 };
  const given = { ...caseInput([]), units: [{ ...zirconiaUnit, kind: 'bridge', bridge }] };
  const primary = problems(given).filter(({ message }) => message.includes('out of scope'));
  expect(primary.map(({ field }) => field)).toEqual([
    'units[0].bridge.retainers[0].tooth',
    'units[0].bridge.pontics[0]',
  ]);
});

test('unknown material and a 0 mm prep', () => {
  const { prep, ...rest } = zirconiaUnit;
  const given = {
    ...caseInput([]),
    units: [{ ...rest, material: 'gold', prep: { ...prep, heightMm: 0 } }],
  };
  expect(problems(given)).toEqual([
    {
      field: 'units[0].material',
      message: `"gold" is not allowed; allowed: ${MATERIALS.map((id) => `"${id}"`).join(' or ')}`,
    },
    {
      field: 'units[0].prep.heightMm',
      message:
        '0 is not allowed; allowed: a number from 0.5 to 12 mm (Occluso-cervical height of the prep)',
    },
  ]);
});

test('what the schema refuses does not hide what the trade refuses', () => {
  const given = {
    ...caseInput([
      { ...zirconiaUnit, tooth: '19', intaglioFromLab: 'untreated' },
      { ...disilicateUnit, cement: 'glue' },
    ]),
    roomC: 60,
    shelf: { ...fullShelf, abrasion: null, hydrofluoricAcid: null, light: { mwCm2: 10 } },
  };
  expect(fields(given).toSorted()).toEqual(
    [
      'roomC',
      'shelf.hydrofluoricAcid',
      'shelf.light.mwCm2',
      'units[0].intaglioFromLab',
      'units[0].tooth',
      'units[1].cement',
    ].toSorted(),
  );
});

test.each([
  null,
  undefined,
  3,
  'case',
  [],
  {},
  { units: 4, shelf: 3 },
  { units: [null], shelf: {} },
])('%j is told apart, not thrown at', (given) => {
  expect(problems(given).length).toBeGreaterThan(0);
});

test('an unknown field is named', () => {
  expect(fields({ ...caseInput([zirconiaUnit]), patient: 'x' })).toEqual(['patient']);
});

describe('zirconia', () => {
  test('untreated and no abrasion unit', () => {
    expect(told([{ ...zirconiaUnit, intaglioFromLab: 'untreated' }], { abrasion: null })).toEqual([
      'units[0].intaglioFromLab',
    ]);
  });
  test('silicone planned and no abrasion unit', () => {
    expect(told([{ ...zirconiaUnit, fitPaste: true }], { abrasion: null })).toEqual([
      'units[0].fitPaste',
    ]);
  });
  test('abraded by the lab, neither cleaner nor abrasion unit', () => {
    expect(told([zirconiaUnit], { abrasion: null, cleaner: null })).toEqual(['shelf.cleaner']);
    expect(told([zirconiaUnit], { abrasion: null })).toEqual([]);
  });
  test('no primer: refused unless the cement carries phosphate or takes no primer', () => {
    const bare = { phosphatePrimer: null };
    expect(told([zirconiaUnit], bare)).toEqual(['shelf.phosphatePrimer']);
    expect(told([{ ...zirconiaUnit, cement: 'self-adhesive' }], bare)).toEqual([]);
    expect(told([{ ...zirconiaUnit, cement: 'ionomer' }], bare)).toEqual([]);
  });
});

describe('lithium disilicate', () => {
  test('no hydrofluoric acid: refused unless etched by the lab and phosphoric acid will do', () => {
    const bare = { hydrofluoricAcid: null };
    expect(told([disilicateUnit], bare)).toEqual(['shelf.hydrofluoricAcid']);
    const etched = { ...disilicateUnit, intaglioFromLab: 'etched' } as const;
    expect(told([etched], bare)).toEqual([]);
    expect(told([{ ...etched, fitPaste: true }], bare)).toEqual(['shelf.hydrofluoricAcid']);
  });
  test('no silane', () => {
    expect(told([disilicateUnit], { silane: null })).toEqual(['shelf.silane']);
  });
});

describe('cement', () => {
  test('not on the shelf: the labels that are', () => {
    expect(problems(caseInput([{ ...zirconiaUnit, cement: 'glue' }]))).toEqual([
      {
        field: 'units[0].cement',
        message: '"glue" is not on the shelf; allowed: "adhesive", "self-adhesive", "ionomer"',
      },
    ]);
  });
  test('adhesive resin without adhesive; enamel without phosphoric acid', () => {
    expect(told([zirconiaUnit], { adhesive: null })).toEqual(['shelf.adhesive']);
    expect(told([{ ...zirconiaUnit, substrate: 'enamel' }], { phosphoricAcid: null })).toEqual([
      'shelf.phosphoricAcid',
    ]);
  });
  test.each(['ionomer', 'self-adhesive'])('%s on a form that does not hold', (cement) => {
    const prep = { heightMm: 3, convergenceDeg: 20, widthMm: 10 };
    const [problem] = problems(caseInput([{ ...zirconiaUnit, cement, prep }]));
    expect(problem?.field).toBe('units[0].cement');
    expect(problem?.message).toContain('Allowed: "adhesive"');
    expect(told([{ ...zirconiaUnit, prep }])).toEqual([]);
  });
});

test('labels and teeth named twice, times out of order, walls that meet', () => {
  const [first] = fullShelf.cements;
  if (first === undefined) throw new Error('a cement');
  expect(
    told(
      [{ ...zirconiaUnit, prep: { heightMm: 12, convergenceDeg: 60, widthMm: 10 } }, zirconiaUnit],
      {
        cements: [first, { ...first, workingS: 200, settingS: 100 }],
        silane: { label: 'silane', ifu: { minS: 60, maxS: 30 } },
      },
    ),
  ).toEqual([
    'units[1].tooth',
    'shelf.silane.ifu',
    'shelf.cements[1].label',
    'shelf.cements[1].settingS',
    'units[0].prep',
  ]);
});
