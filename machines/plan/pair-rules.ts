import type { Substrate as SubstrateId, UnitKind } from '../contract/index.ts';
import { toothClass } from '../form/index.ts';
import type { Trade } from '../trade/index.ts';
import type { LooseUnit } from './loose.ts';
import { aKind, KIND_NAME } from './noun.ts';
import type { CaseProblem } from './problem.ts';
import { classFor, gapIn, leastConnector } from './span.ts';
import { needsPrep } from './retention.ts';
import { isLowLastMolar, leastThickness, thicknessOf } from './thickness.ts';

const TOOTH: readonly SubstrateId[] = ['dentin', 'enamel', 'sealed-dentin', 'composite-core'];
const METAL_CORES: readonly SubstrateId[] = ['amalgam-core', 'noble-metal-core', 'base-metal-core'];
const IN_MOUTH: readonly SubstrateId[] = ['titanium-abutment', 'zirconia-abutment'];

/** What each kind of unit may sit on. */
const SITS_ON: Readonly<Record<UnitKind, readonly SubstrateId[]>> = {
  crown: [...TOOTH, ...METAL_CORES],
  bridge: [...TOOTH, ...METAL_CORES, ...IN_MOUTH],
  veneer: TOOTH,
  inlay: TOOTH,
  onlay: TOOTH,
  'resin-bonded-bridge': ['enamel'],
  'implant-crown': [...IN_MOUTH, 'titanium-base'],
};

const quoted = (values: readonly string[]): string =>
  values.map((value) => JSON.stringify(value)).join(', ');

type Judge = (unit: LooseUnit, name: string, trade: Trade) => CaseProblem[];

/** What the unit and each retainer sit on, where that is known. */
const sitting: Judge = ({ kind, substrate, bridge }, name) => {
  if (kind === undefined) return [];
  const seats = [
    { field: `${name}.substrate`, on: substrate, what: aKind(kind) },
    ...(bridge?.retainers ?? []).map((other, index) => ({
      field: `${name}.bridge.retainers[${index}].substrate`,
      on: other.substrate,
      what: `retainer ${other.tooth} of ${aKind(kind)}`,
    })),
  ];
  return seats.flatMap(({ field, on, what }) =>
    on === undefined || SITS_ON[kind].includes(on)
      ? []
      : [{ field, message: `${what} does not sit on "${on}"; allowed: ${quoted(SITS_ON[kind])}` }],
  );
};

/** Materials the kind is made of, for what to take instead. */
const fitFor = (kind: UnitKind, trade: Trade): string =>
  quoted(
    Object.entries(trade.materials)
      .filter(([, { notFor }]) => notFor[kind] === undefined)
      .map(([id]) => id),
  );

const made: Judge = ({ kind, material, tooth }, name, trade) => {
  if (kind === undefined || material === undefined) return [];
  const table = trade.materials[material];
  const against = table.notFor[kind];
  const field = `${name}.material`;
  if (against !== undefined) {
    return [
      {
        field,
        message: `no ${KIND_NAME[kind]} of ${table.name}: ${against}; allowed: ${fitFor(kind, trade)}`,
      },
    ];
  }
  const posterior = ['premolar', 'molar'].includes(toothClass(tooth ?? '') ?? '');
  return kind === 'crown' && material === 'feldspathic' && posterior
    ? [
        {
          field,
          message: `${table.name} is too weak for a posterior crown; allowed: incisors and canines, or another material`,
        },
      ]
    : [];
};

const thick: Judge = (unit, name, trade) => {
  const { kind, material, thicknessMm, tooth } = unit;
  if (kind === undefined || material === undefined) return [];
  const table = trade.materials[material];
  const least = leastThickness({ kind }, table, { takesPrimer: true });
  const span = thicknessOf({ kind }, table);
  if (unit.belowMinimumReason !== undefined || least === null || span === null) return [];
  if (material === 'zirconia-veneered' && kind !== 'bridge' && isLowLastMolar(tooth ?? '')) {
    return [
      {
        field: `${name}.material`,
        message: `a ${table.name} needs ${span.min} to ${span.target} mm, and a lower second or third molar has no room for it; allowed: a monolithic zirconia or metal, or ${name}.belowMinimumReason`,
      },
    ];
  }
  return thicknessMm !== undefined && thicknessMm < least
    ? [
        {
          field: `${name}.thicknessMm`,
          message: `${thicknessMm} mm is below the ${least} mm of ${table.name} (${span.note}); allowed: from ${least} mm, or ${name}.belowMinimumReason`,
        },
      ]
    : [];
};

const measured: Judge = ({ kind, prep, bridge, tooth }, name) => {
  if (kind === undefined || !needsPrep(kind)) return [];
  return [
    ...(prep === undefined
      ? [
          {
            field: `${name}.prep`,
            message: `missing; allowed: heightMm, convergenceDeg and widthMm of ${tooth ?? 'the prep'}`,
          },
        ]
      : []),
    ...(kind === 'bridge' ? (bridge?.retainers ?? []) : []).flatMap((other, index) =>
      other.prep === undefined
        ? [
            {
              field: `${name}.bridge.retainers[${index}].prep`,
              message: `missing; allowed: heightMm, convergenceDeg and widthMm of ${other.tooth}`,
            },
          ]
        : [],
    ),
  ];
};

const BRIDGES: readonly UnitKind[] = ['bridge', 'resin-bonded-bridge'];

const spanned: Judge = (unit, name, trade) => {
  const { kind, tooth, bridge, material } = unit;
  if (kind === undefined) return [];
  const field = `${name}.bridge`;
  if (!BRIDGES.includes(kind)) {
    return bridge === undefined
      ? []
      : [{ field, message: `${aKind(kind)} has none; allowed: only with a bridge` }];
  }
  if (bridge === undefined) {
    return [{ field, message: 'missing; allowed: retainers, pontics and connectorMm2' }];
  }
  if (tooth === undefined) return [];
  const spanning = { tooth, bridge };
  const gap = gapIn(spanning);
  if (gap !== null) {
    return [{ field, message: `${gap}; allowed: retainers and pontics side by side in one jaw` }];
  }
  if (material === undefined) return [];
  const table = trade.materials[material];
  const { needs, why } = classFor(spanning);
  const own = table.isoClass?.value ?? Infinity;
  const connector = leastConnector(spanning, table);
  return [
    ...(table.notFor[kind] === undefined && own < needs
      ? [
          {
            field: `${name}.material`,
            message: `${table.name} is planned as ISO 6872 class ${own}, and ${why} need class ${needs}; allowed: a material of class ${needs}, or metal-ceramic`,
          },
        ]
      : []),
    ...(connector !== null &&
    bridge.connectorMm2 < connector.value &&
    unit.belowMinimumReason === undefined
      ? [
          {
            field: `${field}.connectorMm2`,
            message: `${bridge.connectorMm2} mm2 is below the ${connector.value} mm2 of ${table.name} (${connector.note}); allowed: from ${connector.value} mm2, or ${name}.belowMinimumReason`,
          },
        ]
      : []),
  ];
};

/** What was done to the tooth before, and speaks against what is planned. */
const history: Judge = (unit, name) => {
  const { kind, astringent } = unit;
  return kind === 'veneer' && astringent === 'ferric-sulfate'
    ? [
        {
          field: `${name}.astringent`,
          message:
            'ferric sulfate stains, and shows through a veneer; allowed: "aluminium-chloride", or none',
        },
      ]
    : [];
};

const JUDGES: readonly Judge[] = [sitting, made, thick, measured, spanned, history];

/** Everything about a unit whose parts do not go together, whatever the cement. */
export const pairProblems = (unit: LooseUnit, name: string, trade: Trade): CaseProblem[] =>
  JUDGES.flatMap((judge) => judge(unit, name, trade));
