import type { CaseFile, StepId } from '../contract/index.ts';
import { afterTryIn } from './steps.ts';
import type { LooseCase, LooseShelf, LooseUnit } from './loose.ts';
import { prepRoute } from './prep-route.ts';
import type { CaseProblem } from './problem.ts';
import { intaglioRoute } from './route.ts';
import { shelfField } from './shelf.ts';

/** A lot past its date that the plan uses. */
export interface Expired {
  /** As `shelf.silane`. */
  readonly field: string;
  readonly item: string;
  readonly lot: string;
  readonly expires: string;
  /** Null: refused until there is one. */
  readonly reason: string | null;
}

/** The steps of one unit that use something up, as far as they can be made out. */
const usedBy = (unit: LooseUnit, shelf: LooseShelf): StepId[] => {
  const cements = shelf.cements.flatMap((each) => each ?? []);
  const cement = cements.find(({ label }) => label === unit.cement);
  const { material, substrate, intaglioFromLab } = unit;
  if (cement === undefined || material === undefined || intaglioFromLab === undefined) return [];
  const state = afterTryIn({
    intaglioFromLab,
    fitPaste: unit.fitPaste ?? false,
    tryInPaste: unit.tryInPaste ?? false,
    countsCleanReason: unit.countsCleanReason,
    ...(substrate === undefined ? {} : { substrate }),
  });
  return [
    ...intaglioRoute({ material, cement: cement.label }, { ...shelf, cements }, state),
    ...(substrate === undefined ? [] : prepRoute({ ...unit, substrate }, shelf, cement)),
  ];
};

type Bought = {
  readonly label: string;
  readonly lot?: string | undefined;
  readonly expires?: string | undefined;
  readonly expiredReason?: string | undefined;
};

/** Every lot past its date that a unit of the case uses. ISO dates order as text. */
export const expiredLots = ({ units, shelf, on }: LooseCase): Expired[] => {
  if (on === undefined) return [];
  const fields = new Set(
    units.flatMap((unit) => usedBy(unit, shelf)).flatMap((step) => shelfField(step) ?? []),
  );
  const items: [string, Bought | null | undefined][] = [
    ['cleaner', fields.has('cleaner') ? shelf.cleaner : null],
    ['hydrofluoricAcid', fields.has('hydrofluoricAcid') ? shelf.hydrofluoricAcid : null],
    ['phosphoricAcid', fields.has('phosphoricAcid') ? shelf.phosphoricAcid : null],
    ['silane', fields.has('silane') ? shelf.silane : null],
    ['phosphatePrimer', fields.has('phosphatePrimer') ? shelf.phosphatePrimer : null],
    ['metalPrimer', fields.has('metalPrimer') ? shelf.metalPrimer : null],
    ['adhesive', fields.has('adhesive') ? shelf.adhesive : null],
    ...shelf.cements.map((cement, index): [string, Bought | null] => [
      `cements[${index}]`,
      units.some((unit) => unit.cement === cement?.label) ? cement : null,
    ]),
  ];
  return items.flatMap(([key, item]) => {
    if (item === null || item === undefined || item.expires === undefined) return [];
    return item.expires >= on
      ? []
      : [
          {
            field: `shelf.${key}`,
            item: item.label,
            lot: item.lot ?? 'no lot noted',
            expires: item.expires,
            reason: item.expiredReason ?? null,
          },
        ];
  });
};

/** Expired lots nobody has given a reason for. */
export const expiryProblems = (given: LooseCase): CaseProblem[] =>
  expiredLots(given)
    .filter(({ reason }) => reason === null)
    .map(({ field, item, lot, expires }) => ({
      field: `${field}.expires`,
      message: `${item} (${lot}) expired on ${expires}, and the appointment is on ${given.on ?? ''}; allowed: a lot in date, or ${field}.expiredReason`,
    }));

/** Those that a reason was given for, as the plan keeps them. */
export const expiredInUse = (caseFile: CaseFile) =>
  expiredLots(caseFile).flatMap(({ item, lot, expires, reason }) =>
    reason === null ? [] : [{ item, lot, expires, reason }],
  );
