import { z } from 'zod';
import { Cement, Shelf, UnitFacts } from '../contract/index.ts';

/** A field that is undefined where what was given is missing or wrong, so that the rest can still be judged. */
const known = <T extends z.ZodType>(schema: T) => schema.optional().catch(undefined);

const unit = UnitFacts.shape;
const shelf = Shelf.shape;

/** What can be made out of a unit. */
export const LooseUnit = z
  .object({
    tooth: known(unit.tooth),
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
    adhesive: known(shelf.adhesive),
    light: known(shelf.light),
    cements: z.array(Cement.nullable().catch(null)).catch([]),
  })
  .catch({ cements: [] });
export type LooseShelf = z.infer<typeof LooseShelf>;

/** What can be made out of a case. */
export const LooseCase = z
  .object({ units: z.array(LooseUnit).catch([]), shelf: LooseShelf })
  .catch({ units: [], shelf: { cements: [] } });
