import { CAUSE_TABLE, FORM_FINDING, WEIGHING } from './debond.ts';
import { DEBOND_EVENTS } from './debond-events.ts';
import { SURVIVAL_ANCHORS } from './debond-survival.ts';
import { TradeNumber } from './number.ts';
import type { TradeNumber as TradeNumberType } from './number.ts';
import { TRADE } from './tables.ts';

/** Every table that holds numbers. */
const TABLES = {
  ...TRADE,
  debond: { causes: CAUSE_TABLE, form: FORM_FINDING, events: DEBOND_EVENTS, weighing: WEIGHING },
  survival: SURVIVAL_ANCHORS,
};

export interface NamedNumber {
  /** Where it stands, as `materials.lithium-disilicate.conditioning`. */
  readonly path: string;
  readonly number: TradeNumberType;
}

export interface Found {
  readonly marked: readonly NamedNumber[];
  /** Paths of numbers without unit, mark, source and note. */
  readonly unmarked: readonly string[];
}

/** All numbers in a table, marked ones apart from those that lack their unit, mark or source. */
export const findNumbers = (table: unknown, path: string): Found => {
  if (typeof table === 'number') return { marked: [], unmarked: [path] };
  if (typeof table !== 'object' || table === null) return { marked: [], unmarked: [] };
  const parsed = TradeNumber.safeParse(table);
  if (parsed.success) return { marked: [{ path, number: parsed.data }], unmarked: [] };
  const inside = Object.entries(table).map(([key, value]) =>
    findNumbers(value, path === '' ? key : `${path}.${key}`),
  );
  return {
    marked: inside.flatMap(({ marked }) => marked),
    unmarked: inside.flatMap(({ unmarked }) => unmarked),
  };
};

/** Every number of the trade tables. */
export const tradeNumbers = (): Found => findNumbers(TABLES, '');
