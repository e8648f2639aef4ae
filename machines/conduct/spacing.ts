import type { Call } from '../contract/index.ts';
import type { DueCall } from './due-call.ts';

/** A timed call with its tooth, its name and its time takes about this long to say, ms. */
const SAID_MS = 3_500;
/** A mark moved later than this says nothing any more, ms. */
const MOST_MS = 12_000;

type Mark = Extract<Call, { readonly id: 'left' | 'seat-by' | 'hold-until' | 'good-for' }>;
/** Marks on the way, the one that gives way last first: they say how long is left, whenever they are said. */
const GIVE_WAY: readonly Mark['id'][] = ['seat-by', 'left', 'hold-until', 'good-for'];

const isMark = (call: Call): call is Mark => GIVE_WAY.some((id) => id === call.id);

/** The same mark said later: with what is left by then. Null when that is nothing worth saying. */
function later(due: DueCall, at: number): DueCall | null {
  const { call } = due;
  if (!isMark(call)) return due;
  const end = due.at + call.seconds * 1000;
  const seconds = Math.floor((end - at) / 1000);
  if (seconds < 4 || at - due.at > MOST_MS) return null;
  return { ...due, at: end - seconds * 1000, call: { ...call, seconds } };
}

/**
 * The calls in time order, with marks that would be said over another call moved behind it: alarms
 * and "time" keep their moment, then the cement's mark, then dwells, then waits. A moved mark says the
 * time left when it is said. Earlier calls are never moved for the sake of later marks, so what was
 * said once stays where it was.
 */
export function spaced(dues: readonly DueCall[]): readonly DueCall[] {
  const rank = ({ call }: DueCall): number => (isMark(call) ? GIVE_WAY.indexOf(call.id) : -1);
  const order = dues.toSorted((a, b) => a.at - b.at || rank(a) - rank(b));
  const fixed = order.filter(({ call }) => !isMark(call));
  const placed: DueCall[] = [];
  for (const due of order.filter(({ call }) => isMark(call))) {
    let moved: DueCall | null = due;
    for (let free = false; moved !== null && !free;) {
      const { at } = moved;
      const over: DueCall | undefined = [...fixed, ...placed].find(
        (one) => Math.abs(one.at - at) < SAID_MS,
      );
      free = over === undefined;
      if (over !== undefined) moved = later(due, over.at + SAID_MS);
    }
    if (moved !== null) placed.push(moved);
  }
  return [...fixed, ...placed].toSorted((a, b) => a.at - b.at);
}
