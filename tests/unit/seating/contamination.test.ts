import { describe, expect, test } from 'vitest';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

const zirconia = () => new Operatory(inventedCase([ZIRCONIA]));
const disilicate = () => new Operatory(inventedCase([DISILICATE]));

describe('what lands on a surface undoes what was done there (laws 1 and 5)', () => {
  test('saliva after the cleaning: the primer is refused until it is cleaned again', () => {
    const chair = zirconia().until('zirconia-primer');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    expect(chair.unit.contaminants).toEqual(['saliva']);
    expect(chair.say({ type: 'begin', step: 'zirconia-primer' })).toEqual(
      refusedAs('intaglio-soiled', { step: 'zirconia-primer', wayOn: 'intaglio-rinse' }),
    );
    expect(chair.step).toBe('intaglio-rinse');
    chair.until('zirconia-primer').must({ type: 'begin', step: 'zirconia-primer' });
  });

  test('a second try-in after priming: cement is not mixed on either side', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'begin', step: 'try-in' }).must({ type: 'finish', step: 'try-in' });
    expect(chair.say({ type: 'begin', step: 'mix' })).toEqual(
      refusedAs('in-mouth', {
        step: 'mix',
        wayOn: 'take-out',
        overridable: false,
        because: 'still-in-mouth',
      }),
    );
    chair.must({ type: 'finish', step: 'take-out' });
    expect(chair.unit.now).toEqual({
      where: 'bench',
      intaglio: 'soiled',
      prep: 'exposed',
      field: 'isolated',
      cement: 'none',
    });
    expect(chair.say({ type: 'begin', step: 'mix' })).toEqual(
      refusedAs('intaglio-soiled', { step: 'mix', wayOn: 'intaglio-rinse' }),
    );
    expect(chair.until('mix').until(null).unit.now.cement).toBe('set');
  });

  test('saliva on the field while the dry check is watched: the check starts again', () => {
    const chair = zirconia().until('dry-check').must({ type: 'begin', step: 'dry-check' });
    chair.wait(29).must({ type: 'soil', surface: 'field', contaminant: 'saliva' }).wait(2);
    expect(chair.say({ type: 'finish', step: 'dry-check' })).toEqual(
      refusedAs('no-dwell', { step: 'dry-check', wayOn: 'dry-check', overridable: false }),
    );
    expect(chair.unit.now.field).toBe('isolated');
  });

  test('saliva on the crown with cement in it: that cement is lost', () => {
    const chair = zirconia().until('seat');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    expect(chair.unit.now).toMatchObject({ intaglio: 'soiled', cement: 'none' });
    expect(chair.unit.mixedAt).toBe(null);
  });

  test('saliva on a crown with acid on it: the acid is still there, and it must not go in', () => {
    const chair = disilicate()
      .until('porcelain-etch')
      .must({ type: 'begin', step: 'porcelain-etch' });
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    expect(chair.unit.now.intaglio).toBe('underAgent');
    expect(chair.say({ type: 'begin', step: 'try-in' })).toEqual(
      refusedAs('agent-still-on', {
        step: 'try-in',
        wayOn: 'porcelain-etch-rinse',
        overridable: false,
      }),
    );
    expect(chair.step).toBe('porcelain-etch-rinse');
  });

  test('blood at the margin of a seated crown is kept, and asks for no work under it', () => {
    const chair = zirconia().until('tack');
    const { step } = chair;
    chair.must({ type: 'find', finding: 'still-bleeding' });
    expect(chair.unit.now.prep).toBe('seated');
    expect(chair.step).toBe(step);
  });
});

describe('silicone (law 4)', () => {
  test('on lithium disilicate phosphoric acid is refused, hydrofluoric acid is the way on', () => {
    const chair = disilicate().until('take-out').doStep();
    expect(chair.unit.contaminants).toEqual(['glove', 'saliva', 'fit-paste']);
    expect(chair.say({ type: 'begin', step: 'acid-clean' })).toEqual(
      refusedAs('silicone-needs-etch', { step: 'acid-clean', wayOn: 'porcelain-etch' }),
    );
  });

  test('it cannot be counted clean with the saliva', () => {
    const chair = disilicate().until('take-out').doStep();
    expect(chair.say({ type: 'counts-clean', reason: 'not-needed' })).toEqual(
      refusedAs('silicone-needs-etch', { wayOn: 'porcelain-etch' }),
    );
  });

  test('on zirconia the cleaner is refused, abrasion is the way on', () => {
    const chair = new Operatory(inventedCase([{ ...ZIRCONIA, fitPaste: true }]));
    chair.until('take-out').doStep();
    expect(chair.say({ type: 'begin', step: 'cleaner' })).toEqual(
      refusedAs('silicone-needs-abrasion', { step: 'cleaner', wayOn: 'abrade' }),
    );
  });

  test('unplanned silicone counts all the same, and a crown etched by the laboratory is etched again', () => {
    const etched = { ...DISILICATE, intaglioFromLab: 'etched' as const, fitPaste: false };
    const chair = new Operatory(inventedCase([etched])).until('approval');
    expect(chair.unit.routes.intaglio).not.toContain('porcelain-etch');
    chair.must({ type: 'finish', step: 'fit-paste' });
    expect(chair.unit.texture).toBe('none');
    expect(chair.unit.routes.intaglio).toContain('porcelain-etch');
  });
});

describe('counting clean', () => {
  test('asks for a reason, reads it back, and is kept', () => {
    const chair = zirconia().until('take-out').doStep();
    expect(chair.say({ type: 'counts-clean' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-reason', for: 'counts-clean' }]);
    expect(chair.say({ type: 'reason', reason: 'clinical-judgement' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-counts-clean', reason: 'clinical-judgement' }]);
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: {
        kind: 'counted-clean',
        step: null,
        reason: 'clinical-judgement',
        refusal: null,
        servedS: null,
      },
    });
    expect(chair.step).toBe('intaglio-dry');
  });

  test("the case's own reason covers the first try-in, not what was reported before it", () => {
    const counted = { ...ZIRCONIA, countsCleanReason: 'tried in under a dam, never wet' };
    const clean = new Operatory(inventedCase([counted])).until('take-out');
    expect(clean.unit.contaminants).toEqual([]);
    const soiled = new Operatory(inventedCase([counted])).until('try-in');
    soiled.must({ type: 'soil', surface: 'intaglio', contaminant: 'blood' }).until('take-out');
    expect(soiled.unit.contaminants).toEqual(['glove', 'blood', 'saliva']);
  });
});
