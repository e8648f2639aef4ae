import { describe, expect, test } from 'vitest';
import type { Contaminant, Material, StepId } from '../../machines/contract/index.ts';
import { cleans } from '../../machines/plan/index.ts';

const takesOff = (material: Material, step: StepId, contaminant: Contaminant): boolean =>
  cleans(material, step).includes(contaminant);

/**
 * Each check takes an ordering inside one paper; figures of different papers are never compared.
 * A step counts as cleaning only where it stood with the uncontaminated or best group.
 */
describe('lithium disilicate', () => {
  test('Klosa K et al. J Adhes Dent 2009;11:127-135: after saliva hydrofluoric and phosphoric acid alike (37.9-49.5 MPa), others 1.7-15.5', () => {
    expect(takesOff('lithium-disilicate', 'porcelain-etch', 'saliva')).toBe(true);
    expect(takesOff('lithium-disilicate', 'acid-clean', 'saliva')).toBe(true);
    expect(takesOff('lithium-disilicate', 'intaglio-rinse', 'saliva')).toBe(false);
  });
  test('Klosa 2009: after silicone only hydrofluoric acid (44.5-50.3 MPa); phosphoric among 0.3-13.5', () => {
    expect(takesOff('lithium-disilicate', 'porcelain-etch', 'fit-paste')).toBe(true);
    expect(takesOff('lithium-disilicate', 'acid-clean', 'fit-paste')).toBe(false);
  });
  test('Aladag A et al. J Prosthodont 2015;24:136-145: cleaning paste 17.4 against control 32.6 MPa', () => {
    expect(cleans('lithium-disilicate', 'cleaner')).toEqual([]);
  });
  test('Gonzaga LH et al. Stoma Edu J 2019;6:18-23: phosphoric acid best after try-in paste', () => {
    expect(takesOff('lithium-disilicate', 'acid-clean', 'try-in-paste')).toBe(true);
  });
});

describe('zirconia', () => {
  test('Yang B et al. Dent Mater 2008;24:508-513: abrasion most effective; water and phosphoric acid leave film', () => {
    expect(takesOff('zirconia-3y', 'abrade', 'saliva')).toBe(true);
    expect(takesOff('zirconia-3y', 'intaglio-rinse', 'saliva')).toBe(false);
    expect(takesOff('zirconia-3y', 'acid-clean', 'saliva')).toBe(false);
  });
  test('Feitosa SA et al. Oper Dent 2015;40:163-171: cleaner = control, above water, above phosphoric acid', () => {
    expect(takesOff('zirconia-3y', 'cleaner', 'saliva')).toBe(true);
    expect(takesOff('zirconia-3y', 'acid-clean', 'saliva')).toBe(false);
  });
  test('Quaas AC et al. Dent Mater 2007;23:506-512 (abrasion best, from memory): saliva and silicone', () => {
    expect(takesOff('zirconia-3y', 'abrade', 'fit-paste')).toBe(true);
    expect(takesOff('zirconia-3y', 'cleaner', 'fit-paste')).toBe(false);
  });
});
