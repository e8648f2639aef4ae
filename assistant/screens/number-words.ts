/** How a number of the trade tables is written: value, mark, source. */
import type { Origin, TradeNumber } from '../../machines/trade/index.ts';

const origin = ({ mark, source }: Origin): string =>
  mark === 'published' || mark === 'memory' ? `${mark}: ${source}` : mark;

/** The number, or least, aim and most, with its unit. */
export const amountWords = (number: TradeNumber): string => {
  const unit = number.unit === 'ratio' || number.unit === 'class' ? '' : ` ${number.unit}`;
  if ('value' in number) return `${number.value}${unit}`;
  const { min, target, max } = number;
  return `${min ?? 'any'} / ${target} / ${max ?? 'any'}${unit}`;
};

/** Who says so, and how surely; ends of another origin are named. */
export const originWords = (number: TradeNumber): string => {
  const own = origin(number);
  if ('value' in number || number.apart === undefined) return own;
  const { min, target, max } = number.apart;
  return [
    own,
    min === undefined ? '' : `; least ${origin(min)}`,
    target === undefined ? '' : `; aim ${origin(target)}`,
    max === undefined ? '' : `; most ${origin(max)}`,
  ].join('');
};
