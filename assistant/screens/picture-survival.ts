/** Survival curves with their intervals and the numbers at risk. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import { atRiskAt, type Curve, pointAt } from '../../machines/review/survival/index.ts';

/** A group to be drawn; times of its curve in days. */
export interface DrawnGroup {
  readonly name: string;
  readonly curve: Curve;
  readonly few: boolean;
}

const WIDTH = 760;
const LEFT = 58;
const RIGHT = 190;
const TOP = 12;
const PLOT_HEIGHT = 260;
const YEAR = 365.25;
/** Where the axis may begin: its fifths are round numbers. */
const FLOORS = [0.95, 0.9, 0.75, 0.5, 0] as const;
/** More curves than this can't be told apart. */
const MOST = 4;

/** The years shown: as long as somebody was followed, in whole years. */
function yearsOf(groups: readonly DrawnGroup[]): number {
  const last = Math.max(0, ...groups.map(({ curve }) => curve.points.at(-1)?.time ?? 0));
  return Math.max(1, Math.ceil(last / YEAR));
}

/** The lowest share shown: curves of rare losses would otherwise all lie at the top. */
function floorOf(groups: readonly DrawnGroup[]): number {
  const least = Math.min(
    1,
    ...groups.flatMap(({ curve }) => curve.points.map(({ survival, lower }) => lower ?? survival)),
  );
  return FLOORS.find((floor) => floor < least) ?? 0;
}

interface Scale {
  readonly x: (days: number) => number;
  readonly y: (share: number) => number;
}

/** A curve that only falls at its times, as a path. */
function steps(
  points: readonly (readonly [days: number, share: number])[],
  { x, y }: Scale,
): string {
  let path = `M${x(0).toFixed(1)} ${y(1).toFixed(1)}`;
  for (const [days, share] of points) path += `H${x(days).toFixed(1)}V${y(share).toFixed(1)}`;
  return path;
}

/** The interval as an area between its two ends. */
function band({ points }: Curve, { x, y }: Scale): string {
  const known = points.flatMap(({ time, lower, upper }) =>
    lower === null || upper === null ? [] : [{ time, lower, upper }],
  );
  const [first] = known;
  if (first === undefined) return '';
  let path = `M${x(first.time).toFixed(1)} ${y(first.upper).toFixed(1)}`;
  for (const { time, upper } of known) path += `H${x(time).toFixed(1)}V${y(upper).toFixed(1)}`;
  let right = known.at(-1)?.time ?? 0;
  for (const { time, lower } of known.toReversed()) {
    path += `H${x(right).toFixed(1)}V${y(lower).toFixed(1)}`;
    right = time;
  }
  return `${path}H${x(first.time).toFixed(1)}Z`;
}

/** Names beside the ends of their curves, moved apart where they would cover one another. */
function labelPlaces(ends: readonly number[]): readonly number[] {
  const order = ends.map((y, i) => ({ y, i })).toSorted((one, other) => one.y - other.y);
  let above = -Infinity;
  for (const place of order) {
    place.y = Math.max(place.y, above + 20);
    above = place.y;
  }
  return order.toSorted((one, other) => one.i - other.i).map(({ y }) => y);
}

function axes(years: number, floor: number, scale: Scale): TemplateResult {
  const bottom = TOP + PLOT_HEIGHT;
  const every = years <= 10 ? 1 : 2;
  const marks = Array.from({ length: Math.floor(years / every) + 1 }, (_, i) => i * every);
  const shares = Array.from({ length: 6 }, (_, i) => floor + ((1 - floor) * i) / 5);
  return svg`<g>
    ${shares.map(
      (
        share,
      ) => svg`<line class="pic-grid" x1=${LEFT} x2=${WIDTH - RIGHT} y1=${scale.y(share)} y2=${scale.y(share)}></line>
        <text class="pic-quiet" x=${LEFT - 8} y=${scale.y(share) + 5} text-anchor="end">${Math.round(share * 100)} %</text>`,
    )}
    ${marks.map(
      (year) =>
        svg`<text class="pic-quiet" x=${scale.x(year * YEAR)} y=${bottom + 20} text-anchor="middle">${year}</text>`,
    )}
    <text class="pic-quiet" x=${WIDTH - RIGHT + 14} y=${bottom + 20}>years</text>
    <line class="pic-axis" x1=${LEFT} x2=${WIDTH - RIGHT} y1=${bottom} y2=${bottom}></line>
  </g>`;
}

function sayOf({ name, curve, few }: DrawnGroup): string {
  const five = pointAt(curve, Math.min(5 * YEAR, curve.points.at(-1)?.time ?? 0));
  const share =
    five === null ? 'nobody followed' : `${(five.survival * 100).toFixed(1)} % still in place`;
  const between =
    five === null || five.lower === null || five.upper === null
      ? ''
      : `, interval ${(five.lower * 100).toFixed(1)} to ${(five.upper * 100).toFixed(1)} %`;
  const year =
    five === null ? '' : ` at ${(Math.min(5 * YEAR, five.time) / YEAR).toFixed(1)} years`;
  return `${name}: ${curve.events} of ${curve.subjects} lost, ${share}${year}${between}${few ? '; few' : ''}`;
}

/** Draws up to four groups; `p` of the log-rank test, null where there is none. */
export function survivalPicture(
  all: readonly DrawnGroup[],
  title: string,
  p: number | null,
): TemplateResult {
  const groups = all.slice(0, MOST);
  const years = yearsOf(groups);
  const floor = floorOf(groups);
  const scale: Scale = {
    x: (days) => LEFT + (days / (years * YEAR)) * (WIDTH - LEFT - RIGHT),
    y: (share) => TOP + ((1 - Math.max(share, floor)) / (1 - floor)) * PLOT_HEIGHT,
  };
  const ends = labelPlaces(groups.map(({ curve }) => scale.y(curve.points.at(-1)?.survival ?? 1)));
  const risk = TOP + PLOT_HEIGHT + 48;
  const every = years <= 10 ? 1 : 2;
  const marks = Array.from({ length: Math.floor(years / every) + 1 }, (_, i) => i * every);
  return html`<figure class="picture">
    <figcaption>
      ${title}: share still in place, with its interval (95
      %).${
        floor > 0
          ? html` <strong>The axis begins at ${Math.round(floor * 100)} %.</strong>`
          : nothing
      }
      ${p === null ? nothing : html`Log-rank p ${p < 0.001 ? 'under 0.001' : p.toFixed(3)}.`}
      ${all.length > MOST ? html`The ${MOST} largest of ${all.length} groups.` : nothing}
    </figcaption>
    <svg
      viewBox=${`0 0 ${WIDTH} ${risk + groups.length * 20 + 8}`}
      role="img"
      aria-label=${`${title}. ${groups.map(sayOf).join('. ')}`}
    >
      ${axes(years, floor, scale)}
      ${groups.map(
        ({ curve }, i) =>
          svg`<path class=${`pic-band pic-tone-${i}`} d=${band(curve, scale)}></path>`,
      )}
      ${groups.map(
        ({ name, curve, few }, i) => svg`<path class=${`pic-curve pic-tone-${i}`}
            d=${steps(
              curve.points.map(({ time, survival }) => [time, survival] as const),
              scale,
            )}></path>
          <line class=${`pic-curve pic-tone-${i}`} x1=${WIDTH - RIGHT + 10} x2=${WIDTH - RIGHT + 36} y1=${ends[i] ?? 0} y2=${ends[i] ?? 0}></line>
          <text class="pic-text" x=${WIDTH - RIGHT + 42} y=${(ends[i] ?? 0) + 5}>${name}${few ? ' (few)' : ''}</text>`,
      )}
      <text class="pic-quiet" x="0" y=${risk - 12}>at risk</text>
      ${groups.map(
        ({ name, curve }, i) => svg`${marks.map(
          (year) =>
            svg`<text class="pic-quiet" x=${scale.x(year * YEAR)} y=${risk + 8 + i * 20} text-anchor="middle">${atRiskAt(curve, year * YEAR)}</text>`,
        )}
        <text class="pic-text" x=${WIDTH - RIGHT + 42} y=${risk + 8 + i * 20}>${name}</text>`,
      )}
    </svg>
  </figure>`;
}
