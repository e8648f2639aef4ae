import type { Material as MaterialId, OwnNumber, CementClass } from '../contract/index.ts';
import { CEMENT_TABLE } from './cements.ts';
import type { CementTable } from './cements.ts';
import { CLOCK } from './clock.ts';
import { DWELLS } from './dwells.ts';
import { FORM_RULES } from './form-rules.ts';
import { FRESHNESS } from './freshness.ts';
import { LIGHT } from './light.ts';
import { LIMITS } from './limits.ts';
import { MATERIAL_TABLE } from './materials.ts';
import type { Material } from './material.ts';
import { TradeNumber } from './number.ts';
import { SUBSTRATE_TABLE } from './substrates.ts';
import type { Substrates } from './substrates.ts';

/** Numbers as numbers, not as the one they happen to be. */
type Wide<T> = T extends number
  ? number
  : T extends string | boolean | null | ((told: never) => string)
    ? T
    : { readonly [K in keyof T]: Wide<T[K]> };

/** Every table of the trade. */
export interface Trade {
  readonly materials: Readonly<Record<MaterialId, Material>>;
  readonly substrates: Substrates;
  readonly cements: Readonly<Record<CementClass, CementTable>>;
  readonly dwells: Wide<typeof DWELLS>;
  readonly freshness: Wide<typeof FRESHNESS>;
  readonly light: Wide<typeof LIGHT>;
  readonly clock: Wide<typeof CLOCK>;
  readonly form: Wide<typeof FORM_RULES>;
  readonly limits: Wide<typeof LIMITS>;
}

/** The tables as they are built in. */
export const TRADE: Trade = {
  materials: MATERIAL_TABLE,
  substrates: SUBSTRATE_TABLE,
  cements: CEMENT_TABLE,
  dwells: DWELLS,
  freshness: FRESHNESS,
  light: LIGHT,
  clock: CLOCK,
  form: FORM_RULES,
  limits: LIMITS,
};

const isTable = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** The number at a path, as `materials.zirconia-3y.conditioning`; null where there is none. */
export const numberAt = (path: string): TradeNumber | null => {
  const found = path
    .split('.')
    .reduce<unknown>(
      (table, key) => (isTable(table) && Object.hasOwn(table, key) ? table[key] : undefined),
      TRADE,
    );
  const parsed = TradeNumber.safeParse(found);
  return parsed.success ? parsed.data : null;
};

/** A number with what the practice has put in its place. */
export const ownOf = (built: TradeNumber, own: OwnNumber): TradeNumber => {
  const from = { mark: 'shelf', source: 'shelf', note: own.from } as const;
  if ('value' in built) return { ...built, ...from, value: own.value ?? built.value };
  const { min, target, max, unit } = built;
  return {
    unit,
    ...from,
    min: own.min === undefined ? min : own.min,
    target: own.target ?? target,
    max: own.max === undefined ? max : own.max,
  };
};

const put = (table: unknown, [key, ...rest]: readonly string[], own: OwnNumber): unknown => {
  if (key === undefined) {
    const built = TradeNumber.safeParse(table);
    return built.success ? ownOf(built.data, own) : table;
  }
  if (Array.isArray(table) || !isTable(table) || !Object.hasOwn(table, key)) return table;
  return { ...table, [key]: put(table[key], rest, own) };
};

/** The tables with the practice's own numbers in them; paths that lead to no number change nothing. */
export const tradeOf = (numbers: readonly OwnNumber[] | undefined): Trade => {
  const patched = (numbers ?? []).reduce<unknown>(
    (table, own) => put(table, own.path.split('.'), own),
    TRADE,
  );
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- `put` changes numbers inside a TradeNumber and nothing else
  return patched as Trade;
};
