import type { ClockView } from '../contract/index.ts';
import { spoilsAt, staleAt, type UnitContext } from '../seating/index.ts';
import { holdsUntil } from './hold.ts';

/** A surface that is good for longer than this needs no place on a screen yet, ms. */
const SOON_MS = 300_000;

/** The clocks of a unit that nobody started by hand, at case time `at` (ms): seat by, hold until, use within. */
export function clocksOf(context: UnitContext, at: number): readonly ClockView[] {
  const { tooth } = context.facts;
  const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  const end = spoilsAt(context);
  const seatBy: ClockView[] =
    waiting && end !== null ? [{ clock: 'seat-by', tooth, step: null, leftMs: end - at }] : [];
  const hold = holdsUntil(context);
  const holds: ClockView[] =
    hold === null
      ? []
      : [
          {
            clock: hold.until === 'gel' ? 'hold-until-gel' : 'hold-until-set',
            tooth,
            step: null,
            leftMs: hold.at - at,
          },
        ];
  if (context.now.where === 'seated') return [...seatBy, ...holds];
  const surfaces = context.made
    .filter(({ used }) => used.length === 0)
    .map((made): ClockView => {
      const leftMs = staleAt(context, made) - at;
      return { clock: 'use-within', tooth, step: made.step, leftMs };
    })
    .filter(({ leftMs }) => leftMs <= SOON_MS);
  return [...seatBy, ...holds, ...surfaces];
}
