import { describe, expect, test } from 'vitest';
import type { Contaminant } from '../../machines/contract/index.ts';
import { cleans, intaglioRoute, prepRoute } from '../../machines/plan/index.ts';
import { caseOf, disilicateUnit, fullShelf, zirconiaUnit } from '../case-samples.ts';

const { shelf, units } = caseOf([zirconiaUnit, disilicateUnit]);
const [zirconia, disilicate] = units;
if (zirconia === undefined || disilicate === undefined) throw new Error('two units');
const soiled = (...contaminants: Contaminant[]) => contaminants;

describe('zirconia', () => {
  const abraded = { texture: 'abraded', primed: true } as const;
  const primer = ['zirconia-primer', 'primer-dry'];

  test.each(['saliva', 'blood', 'glove', 'drop', 'try-in-paste', 'acid'] as const)(
    '%s: cleaner, then primer again',
    (contaminant) => {
      expect(
        intaglioRoute(zirconia, shelf, { ...abraded, contaminants: soiled(contaminant) }),
      ).toEqual(['intaglio-rinse', 'cleaner', 'cleaner-rinse', 'intaglio-dry', ...primer]);
    },
  );

  test.each(['fit-paste', 'cement'] as const)('%s: only abrasion', (contaminant) => {
    expect(
      intaglioRoute(zirconia, shelf, { ...abraded, contaminants: soiled('saliva', contaminant) }),
    ).toEqual(['intaglio-rinse', 'abrade', 'intaglio-dry', ...primer]);
  });

  test('no cleaner on the shelf: abrasion; neither: abrasion is named all the same', () => {
    const state = { ...abraded, contaminants: soiled('saliva') };
    const route = ['intaglio-rinse', 'abrade', 'intaglio-dry', ...primer];
    expect(intaglioRoute(zirconia, { ...shelf, cleaner: null }, state)).toEqual(route);
    expect(intaglioRoute(zirconia, { ...shelf, cleaner: null, abrasion: null }, state)).toEqual(
      route,
    );
  });

  test('untreated or etched by the lab: abraded, clean or not', () => {
    const bare = { contaminants: [], primed: false } as const;
    const route = ['abrade', 'intaglio-dry', ...primer];
    expect(intaglioRoute(zirconia, shelf, { ...bare, texture: 'none' })).toEqual(route);
    expect(intaglioRoute(zirconia, shelf, { ...bare, texture: 'etched' })).toEqual(route);
  });

  test('a cement that carries phosphate needs no primer', () => {
    expect(
      intaglioRoute({ ...zirconia, cement: 'self-adhesive' }, shelf, {
        ...abraded,
        contaminants: soiled('saliva'),
      }),
    ).toEqual(['intaglio-rinse', 'cleaner', 'cleaner-rinse', 'intaglio-dry']);
  });

  test('from a cleaner that is on: rinse, dry, primer', () => {
    expect(
      intaglioRoute(zirconia, shelf, {
        contaminants: soiled('saliva'),
        texture: 'abraded',
        primed: false,
        agent: 'cleaner',
      }),
    ).toEqual(['cleaner-rinse', 'intaglio-dry', ...primer]);
  });

  test('wet on a primed surface: dry and primer again', () => {
    expect(intaglioRoute(zirconia, shelf, { ...abraded, contaminants: [], wet: true })).toEqual([
      'intaglio-dry',
      ...primer,
    ]);
  });

  test('ready: nothing', () => {
    expect(intaglioRoute(zirconia, shelf, { ...abraded, contaminants: [] })).toEqual([]);
  });
});

describe('lithium disilicate', () => {
  const etched = { texture: 'etched', primed: true } as const;
  const etch = ['porcelain-etch', 'porcelain-etch-rinse', 'intaglio-dry', 'silane', 'primer-dry'];

  test.each(['saliva', 'glove', 'drop', 'try-in-paste'] as const)(
    '%s on an etched surface: phosphoric acid, silane again',
    (contaminant) => {
      expect(
        intaglioRoute(disilicate, shelf, { ...etched, contaminants: soiled(contaminant) }),
      ).toEqual([
        'intaglio-rinse',
        'acid-clean',
        'acid-clean-rinse',
        'intaglio-dry',
        'silane',
        'primer-dry',
      ]);
    },
  );

  test.each(['blood', 'fit-paste', 'cement'] as const)('%s: etched again', (contaminant) => {
    expect(
      intaglioRoute(disilicate, shelf, { ...etched, contaminants: soiled(contaminant) }),
    ).toEqual(['intaglio-rinse', ...etch]);
  });

  test('abraded counts for nothing; no phosphoric acid: etched', () => {
    expect(
      intaglioRoute(disilicate, shelf, { contaminants: [], texture: 'abraded', primed: false }),
    ).toEqual(etch);
    expect(
      intaglioRoute(
        disilicate,
        { ...shelf, phosphoricAcid: null },
        { ...etched, contaminants: soiled('saliva') },
      ),
    ).toEqual(['intaglio-rinse', ...etch]);
  });

  test('a cement that carries phosphate still needs silane; an ionomer takes none', () => {
    const bare = { contaminants: [], texture: 'none', primed: false } as const;
    expect(intaglioRoute({ ...disilicate, cement: 'self-adhesive' }, shelf, bare)).toEqual(etch);
    expect(intaglioRoute({ ...disilicate, cement: 'ionomer' }, shelf, bare)).toEqual(
      etch.slice(0, 3),
    );
  });

  test('phosphoric acid on over silicone: still to be etched', () => {
    expect(
      intaglioRoute(disilicate, shelf, {
        contaminants: soiled('saliva', 'fit-paste'),
        texture: 'etched',
        primed: false,
        agent: 'acid-clean',
      }),
    ).toEqual(['acid-clean-rinse', ...etch]);
  });
});

test('what cleans nothing on a material', () => {
  expect(cleans('zirconia-3y', 'intaglio-rinse')).toEqual([]);
  expect(cleans('zirconia-3y', 'acid-clean')).toEqual([]);
  expect(cleans('lithium-disilicate', 'cleaner')).toEqual([]);
});

describe('prep', () => {
  test('by cement class', () => {
    expect(prepRoute(zirconia, shelf, 'adhesive-resin-dual')).toEqual([
      'isolate',
      'pumice',
      'dry-check',
      'tooth-etch',
      'tooth-etch-rinse',
      'bond',
      'bond-thin',
    ]);
    const moist = ['isolate', 'pumice', 'dry-check', 'prep-moist'];
    expect(prepRoute(zirconia, shelf, 'self-adhesive-resin')).toEqual(moist);
    expect(prepRoute(zirconia, shelf, 'resin-modified-glass-ionomer')).toEqual(moist);
  });

  test('dentin without phosphoric acid is bonded in self-etch mode, enamel is not', () => {
    const bare = { ...fullShelf, phosphoricAcid: null };
    expect(prepRoute(zirconia, bare, 'adhesive-resin-dual')).toEqual([
      'isolate',
      'pumice',
      'dry-check',
      'bond',
      'bond-thin',
    ]);
    expect(prepRoute({ ...zirconia, substrate: 'enamel' }, bare, 'adhesive-resin-dual')).toContain(
      'tooth-etch',
    );
  });
});
