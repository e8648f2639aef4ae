import { expect, test } from 'vitest';
import { withCode } from '../../assistant/screens/barcode.ts';
import { candidateOf, draftOf, emptyDraft } from '../../assistant/screens/draft.ts';
import { numberOf, textOf } from '../../assistant/screens/draft-values.ts';
import { CaseFile } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';

const CASES: readonly CaseFile[] = [
  inventedCase([ZIRCONIA, { ...DISILICATE, countsCleanReason: 'rinsed and primed before' }]),
  inventedCase([DISILICATE], {
    team: 'solo',
    roomC: 19.5,
    shelf: {
      abrasion: { particleUm: 30, bar: 1.5, ifu: { minS: 10, targetS: 12.5, maxS: 20 } },
      cleaner: null,
      hydrofluoricAcid: {
        label: 'etch',
        percent: 9,
        gtin: '09501101530003',
        lot: 'INV-9',
        expires: '2031-12-31',
      },
      phosphoricAcid: null,
      silane: { label: 'silane', ifu: { targetS: 90 } },
      phosphatePrimer: null,
      adhesive: null,
      cements: [
        {
          label: 'adhesive resin',
          class: 'adhesive-resin-dual',
          gtin: '09501101530003',
          workingS: 150,
          settingS: 300,
        },
      ],
      light: null,
    },
  }),
  inventedCase(
    [
      {
        ...ZIRCONIA,
        kind: 'bridge',
        tooth: '26',
        darkShade: true,
        prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 9, groove: true },
        bridge: {
          retainers: [
            {
              tooth: '24',
              prep: { heightMm: 4, convergenceDeg: 10, widthMm: 8 },
              substrate: 'base-metal-core',
            },
          ],
          pontics: ['25'],
          connectorMm2: 9.5,
        },
        bonding: 'selective-enamel',
        astringent: 'aluminium-chloride',
        desensitiser: 'chlorhexidine',
        bleachedDaysAgo: 30,
        bleachedReason: 'ascorbate for ten minutes',
        belowMinimumReason: 'opposes a denture',
      },
      {
        ...ZIRCONIA,
        kind: 'implant-crown',
        substrate: 'titanium-abutment',
        abutment: { torqueNcm: 35, marginBelowGumMm: 0.5 },
      },
    ],
    {
      on: '2031-02-03',
      assistantMay: ['condition', 'cure'],
      shelf: {
        ...inventedCase([ZIRCONIA]).shelf,
        silane: { label: 'silane', lot: 'INV-4', expires: '2030-01-01', expiredReason: 'no other' },
        metalPrimer: { label: 'metal primer', monomer: 'sulfur', touchCure: true },
        adhesive: { label: 'adhesive', acidic: true, activator: true },
        cements: [{ label: 'adhesive resin', class: 'adhesive-resin-dual', amine: false }],
        light: { mwCm2: 1000, baselineMwCm2: 1200 },
        numbers: [{ path: 'light.dose', target: 20, from: 'house rule' }],
      },
    },
  ),
];

test.each(CASES)(
  'a case goes into the form and out of it unchanged: $units.length units',
  (file) => {
    expect(CaseFile.parse(candidateOf(draftOf(file)))).toEqual(file);
  },
);

test('every field of a blank form that has no usual answer is told as missing', () => {
  const checked = checkCase(candidateOf(emptyDraft()));
  const missing = checked.ok
    ? []
    : checked.problems.filter(({ message }) => message.startsWith('missing'));
  expect(missing.map(({ field }) => field).toSorted()).toEqual([
    'reference',
    'shelf.cements[0].class',
    'shelf.cements[0].label',
    'units[0].cement',
    'units[0].material',
    'units[0].prep.convergenceDeg',
    'units[0].prep.heightMm',
    'units[0].prep.widthMm',
    'units[0].substrate',
    'units[0].thicknessMm',
    'units[0].tooth',
  ]);
});

test('numbers are read with point or comma; what is none stays as typed', () => {
  expect(['4.5', ' 4,5 ', '-1', '', '4.', 'four', '1e3'].map(numberOf)).toEqual([
    4.5,
    4.5,
    -1,
    undefined,
    '4.',
    'four',
    '1e3',
  ]);
  expect([textOf(4.5), textOf(undefined)]).toEqual(['4.5', '']);
});

test('a barcode fills in the device identifier, lot and expiry, and leaves the rest', () => {
  const [cement] = emptyDraft().shelf.cements;
  if (cement === undefined) throw new Error('a blank shelf has room for one cement');
  const code = '(01)09501101530003(17)280200(10)INV-7';
  expect(withCode({ ...cement, label: 'resin' }, code, '2026-02-03')).toEqual({
    ...cement,
    label: 'resin',
    code,
    gtin: '09501101530003',
    lot: 'INV-7',
    expires: '2028-02-29',
  });
  const unread = '(01)09501101530004(10)INV-7';
  expect(withCode(cement, unread, '2026-02-03')).toEqual({ ...cement, code: unread });
});
