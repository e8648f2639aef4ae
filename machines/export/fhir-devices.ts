import type { Entry, Header } from '../contract/index.ts';
import { metaOf, type Resource, some, text, uuidOf } from './fhir-parts.ts';

/** Who issues device identifiers that are GTINs, as FHIR R4 names it. */
const GS1 = 'http://hl7.org/fhir/NamingSystem/gs1-di';

/** A thing that was used: what it is, and the practice's own name for it. */
interface Used {
  readonly what: string;
  readonly label: string;
  readonly lot?: string | undefined;
  readonly expires?: string | undefined;
  readonly gtin?: string | undefined;
  /** Teeth it was used on; null for all. */
  readonly teeth: readonly string[] | null;
}

/** The devices of a bundle, and which of them each unit's procedure used. */
export interface Devices {
  readonly resources: readonly Resource[];
  /** Ids of what was used on a tooth, its restoration left out. */
  usedOn(tooth: string): readonly string[];
  /** Id of a tooth's restoration. */
  restorationOf(tooth: string): string;
}

function asText(value: unknown, name: string): string | undefined {
  const found: unknown =
    typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;
  return typeof found === 'string' ? found : undefined;
}

/** The label, lot, date and device identifier that an item of a shelf has; null for what has no label. */
function itemOf(
  what: string,
  item: unknown,
  teeth: readonly string[] | null = null,
): readonly Used[] {
  const label = asText(item, 'label');
  if (label === undefined) return [];
  const lot = asText(item, 'lot');
  const expires = asText(item, 'expires');
  return [{ what, label, lot, expires, gtin: asText(item, 'gtin'), teeth }];
}

/** `phosphatePrimer` as words: phosphate primer. */
const wordsOf = (name: string): string =>
  name.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** What the shelf says was to be used, and the lots that were noted at the chair. */
function allUsed({ case: { shelf, units } }: Header, entries: readonly Entry[]): readonly Used[] {
  const items = Object.entries(shelf).flatMap(([name, item]) => itemOf(wordsOf(name), item));
  const cements = shelf.cements.flatMap((cement) => {
    const teeth = units.filter((unit) => unit.cement === cement.label).map(({ tooth }) => tooth);
    return teeth.length === 0 ? [] : itemOf(`luting cement: ${cement.class}`, cement, teeth);
  });
  const noted = entries.flatMap(({ command, outcome }) =>
    command.type === 'lot' && outcome.kind === 'accepted'
      ? itemOf('lot noted at the chair', { label: command.item, lot: command.lot })
      : [],
  );
  return [...items, ...cements, ...noted];
}

function deviceOf(caseId: string, used: Used, invented: boolean): Resource {
  return {
    resourceType: 'Device',
    id: uuidOf(`${caseId} device ${used.what} ${used.label} ${used.lot ?? ''}`),
    ...metaOf(invented),
    ...some(
      'udiCarrier',
      used.gtin === undefined ? null : [{ deviceIdentifier: used.gtin, issuer: GS1 }],
    ),
    ...some('expirationDate', used.expires),
    ...some('lotNumber', used.lot),
    deviceName: [{ name: used.label, type: 'user-friendly-name' }],
    type: text(used.what),
  };
}

/**
 * A Device for every lot: what stands on the case's shelf and what was noted at the chair, and one
 * for each restoration. Who made it is not part of a record.
 */
export function devicesOf(caseId: string, header: Header, entries: readonly Entry[]): Devices {
  const { invented } = header;
  const used = allUsed(header, entries).map((one) => ({
    ...one,
    resource: deviceOf(caseId, one, invented),
  }));
  const restorations = header.plan.units.map(({ tooth, materialName }) => {
    const unit = header.case.units.find((one) => one.tooth === tooth);
    return {
      tooth,
      resource: {
        resourceType: 'Device',
        id: uuidOf(`${caseId} restoration ${tooth}`),
        ...metaOf(invented),
        deviceName: [
          { name: `${unit?.kind ?? 'restoration'} for tooth ${tooth}`, type: 'user-friendly-name' },
        ],
        type: text(`${unit?.kind ?? 'restoration'}, ${materialName}`),
      } satisfies Resource,
    };
  });
  // The same lot may stand on the shelf and be noted twice.
  const all = [...restorations, ...used].map(({ resource }) => [resource.id, resource] as const);
  return {
    resources: [...new Map(all).values()],
    usedOn: (tooth) => [
      ...new Set(
        used
          .filter(({ teeth }) => teeth === null || teeth.includes(tooth))
          .map(({ resource }) => resource.id),
      ),
    ],
    restorationOf: (tooth) => uuidOf(`${caseId} restoration ${tooth}`),
  };
}
