import type { UnitContext } from './context.ts';
import { type Seat, teethWords } from './seats.ts';

/** The unit as if all of it sat on this seat's substrate. */
const contextAt = (context: UnitContext, { substrate }: Seat): UnitContext => ({
  ...context,
  substrate: context.trade.substrates[substrate],
  unit: { ...context.unit, substrate },
});

/** What is said of some seats of a unit: once where it holds of all, else by the teeth it holds of. */
export const bySeat = (
  context: UnitContext,
  seats: readonly Seat[],
  say: (context: UnitContext, seat: Seat) => string,
): string[] => {
  const texts = seats.map((seat) => ({ seat, text: say(contextAt(context, seat), seat) }));
  const told = [...new Set(texts.map(({ text }) => text))].filter((text) => text !== '');
  return told.map((text) => {
    const whose = texts.filter((each) => each.text === text).flatMap(({ seat }) => seat.teeth);
    const all = context.seats.flatMap(({ teeth }) => teeth).length;
    return whose.length === all ? text : `${teethWords(whose)}: ${text}`;
  });
};
