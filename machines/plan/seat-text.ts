import type { StepId } from '../contract/index.ts';
import { CARDS } from './cards.ts';
import type { UnitContext } from './context.ts';
import { CLOSING, routeOn } from './prep-route.ts';
import { bySeat } from './by-seat.ts';
import { BY_SEAT, teethWords } from './seats.ts';
import type { Seat } from './seats.ts';

type Field = 'todo' | 'gate' | 'why';

const closes = (step: StepId): boolean => CLOSING.some((each) => each === step);

/** The card that a seat's words for this step are on; null where the step is none of its business. */
const cardFor = (step: StepId, { substrate }: Seat, context: UnitContext): StepId | null => {
  const { caseFile, cement, unit, trade } = context;
  const abutment = trade.substrates[substrate].of === 'abutment';
  if (step === 'abutment-in') return abutment ? step : null;
  if (step === 'prep-clean') return abutment ? null : step;
  if (step === 'isolate' || step === 'isolation-out' || step === 'residual') return step;
  const route = routeOn({ substrate, bonding: unit.bonding }, caseFile.shelf, cement);
  // One step closes it for all, each by its own words.
  if (closes(step)) return route.find(closes) ?? null;
  return route.includes(step) ? step : null;
};

/** The seats that stand longer under acid than the tightest, and how much sooner the acid goes on them. */
const acidFirst = ({ seats, trade }: UnitContext): string => {
  const etched = seats.flatMap(({ substrate, teeth }) => {
    const { etch } = trade.substrates[substrate];
    return etch === null ? [] : [{ teeth, etch }];
  });
  const [tight, ...longer] = etched.toSorted(
    (one, other) => (one.etch.max ?? Infinity) - (other.etch.max ?? Infinity),
  );
  if (tight === undefined) return '';
  const sooner = longer
    .filter(({ etch }) => etch.target > tight.etch.target)
    .map(({ teeth, etch }) => `${teethWords(teeth)} ${etch.target - tight.etch.target} s before`);
  return sooner.length === 0
    ? ''
    : ` Acid on ${sooner.join(', ')}, on ${teethWords(tight.teeth)} last: the time runs from there.`;
};

/**
 * A card's words where the retainers sit on different substrates: what each of them needs, by its tooth.
 * Null where all sit on the same, or the step is the same for all.
 */
export const seatText = (step: StepId, field: Field, context: UnitContext): string | null => {
  if (context.seats.length < 2 || !BY_SEAT.includes(step)) return null;
  const own = context.seats.filter((seat) => cardFor(step, seat, context) !== null);
  const texts = bySeat(context, own, (at, seat) => {
    const said = CARDS[cardFor(step, seat, context) ?? step][field];
    return typeof said === 'string' ? said : said(at);
  });
  const [only] = texts;
  if (only === undefined) return null;
  // Whose step it is has been said by then.
  if (field === 'why' && texts.length === 1) return only.replace(/^[\d, and]+: /, '');
  return `${texts.join(' ')}${step === 'tooth-etch' && field === 'todo' ? acidFirst(context) : ''}`;
};
