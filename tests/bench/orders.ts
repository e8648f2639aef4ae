/** The human orders: their sound, their labels, and whether what was heard is right. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import { readWav } from '../../assistant/cli/wav.ts';
import type { Pcm } from '../../assistant/ear/port.ts';

const SLOTS = [
  'size',
  'roast',
  'numberOfShots',
  'coffeeDrink',
  'milkAmount',
  'sugarAmount',
] as const;
const labelsSchema = z.record(
  z.string(),
  z.object({ slots: z.partialRecord(z.enum(SLOTS), z.string()) }),
);

type Slots = Partial<Record<(typeof SLOTS)[number], string>>;

export interface Order {
  readonly file: string;
  readonly slots: Slots;
  readonly pcm: Pcm;
}

const ALONE: readonly (readonly [(typeof SLOTS)[number], RegExp])[] = [
  ['size', /\b(small|medium|large|(?:eight|twelve|sixteen|twenty) ounce)\b(?! roast)/],
  ['roast', /\b((?:light|medium|dark) roast)\b/],
  ['numberOfShots', /\b((?:single|double|triple) shot)\b/],
  [
    'coffeeDrink',
    /\b(americano|cappuccino|espresso|iced mocha|latte|mocha|(?:(?:drip|house|iced) )?coffee)\b/,
  ],
];
const MILK = /\b(?:milk|cream)$/;

/** The slots of a phrase of `orders.jsgf`. */
export function slotsOf(phrase: string): Slots {
  const [order = '', extras = ''] = phrase.split(' with ');
  const slots: Slots = {};
  for (const [slot, pattern] of ALONE) {
    const found = pattern.exec(order)?.[1];
    if (found !== undefined) slots[slot] = found;
  }
  for (const extra of extras.split(' and ').filter((text) => text !== '')) {
    slots[MILK.test(extra) ? 'milkAmount' : 'sugarAmount'] = extra;
  }
  return slots;
}

/** The rule of the set: every slot, labelled or heard, is the same in both. */
export function isRight(phrase: string | null, labelled: Slots): boolean {
  if (phrase === null) return false;
  const heard = slotsOf(phrase);
  return SLOTS.every((slot) => (heard[slot] ?? '') === (labelled[slot] ?? '').trim());
}

/** Reads the orders below `folder`, every `every`th of them. */
export async function readOrders(folder: string, every: number): Promise<readonly Order[]> {
  const text = await readFile(join(folder, 'orders.labels.json'), 'utf8');
  const labels = Object.entries(labelsSchema.parse(JSON.parse(text)));
  return Promise.all(
    labels
      .filter((_, index) => index % every === 0)
      .map(async ([file, { slots }]) => ({
        file,
        slots,
        pcm: readWav(await readFile(join(folder, 'orders', file))),
      })),
  );
}
