import { z } from 'zod';
import { CaseFile, Cement, Shelf, UnitFacts } from '../contract/index.ts';

/** A field that is undefined where what was given is missing or wrong, so that the rest can still be judged. */
const known = <T extends z.ZodType>(schema: T) => schema.optional().catch(undefined);

const unit = UnitFacts.shape;
const shelf = Shelf.shape;

/** What can be made out of a unit. */
export const LooseUnit = z
  .object({
    tooth: known(unit.tooth),
    kind: known(unit.kind),
    thicknessMm: known(unit.thicknessMm),
    translucency: known(unit.translucency),
    darkShade: known(unit.darkShade),
    bonding: known(unit.bonding),
    bridge: known(unit.bridge),
    astringent: known(unit.astringent),
    desensitiser: known(unit.desensitiser),
    bleachedDaysAgo: known(unit.bleachedDaysAgo),
    bleachedReason: known(unit.bleachedReason),
    belowMinimumReason: known(unit.belowMinimumReason),
    material: known(unit.material),
    substrate: known(unit.substrate),
    prep: known(unit.prep),
    intaglioFromLab: known(unit.intaglioFromLab),
    fitPaste: known(unit.fitPaste),
    tryInPaste: known(unit.tryInPaste),
    cement: known(unit.cement),
    countsCleanReason: known(unit.countsCleanReason),
  })
  .catch({});
export type LooseUnit = z.infer<typeof LooseUnit>;

/** What can be made out of a shelf: null is known to be missing, undefined is not known. */
export const LooseShelf = z
  .object({
    abrasion: known(shelf.abrasion),
    cleaner: known(shelf.cleaner),
    hydrofluoricAcid: known(shelf.hydrofluoricAcid),
    phosphoricAcid: known(shelf.phosphoricAcid),
    silane: known(shelf.silane),
    phosphatePrimer: known(shelf.phosphatePrimer),
    metalPrimer: known(shelf.metalPrimer),
    adhesive: known(shelf.adhesive),
    light: known(shelf.light),
    numbers: known(shelf.numbers),
    cements: z.array(Cement.nullable().catch(null)).catch([]),
  })
  .catch({ cements: [] });
export type LooseShelf = z.infer<typeof LooseShelf>;

/** What can be made out of a case. */
export const LooseCase = z
  .object({
    units: z.array(LooseUnit).catch([]),
    shelf: LooseShelf,
    on: known(CaseFile.shape.on),
  })
  .catch({ units: [], shelf: { cements: [] } });
export type LooseCase = z.infer<typeof LooseCase>;
