/** One seating drawn against its windows: when each dwell ran, and how long beside what was asked. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import { duration, minutes } from './format.ts';

/** A dwell as it was served. Seconds; `fromS` counts from the opening of the case. */
export interface SeatingBar {
  readonly title: string;
  readonly fromS: number;
  readonly servedS: number;
  readonly minS: number;
  readonly targetS: number;
  readonly maxS: number | null;
}

const WIDTH = 760;
const NAME = 250;
const PLOT = 300;
const ROW = 30;
const STRIP = 58;

export type Standing = 'right' | 'short' | 'long';

/** How a dwell stands to its window. */
export function standingOf({ servedS, minS, maxS }: SeatingBar): Standing {
  if (servedS < minS) return 'short';
  return maxS !== null && servedS > maxS ? 'long' : 'right';
}

function saysOf(bar: SeatingBar): string {
  const took = duration(Math.round(bar.servedS * 10) / 10);
  const standing = standingOf(bar);
  if (standing === 'right') return took;
  const off = standing === 'short' ? bar.minS - bar.servedS : bar.servedS - (bar.maxS ?? 0);
  return `${took}: ${duration(Math.round(off * 10) / 10)} too ${standing}`;
}

/** The whole appointment on one line. */
function strip(bars: readonly SeatingBar[]): TemplateResult {
  const end = Math.max(60, ...bars.map(({ fromS, servedS }) => fromS + servedS));
  const x = (seconds: number): number => 6 + (seconds / end) * (WIDTH - 12);
  const every = [60, 120, 300, 600, 1200, 3600].find((step) => end / step <= 9) ?? 3600;
  const ticks = Array.from({ length: Math.floor(end / every) + 1 }, (_, i) => i * every);
  return svg`<g>
    <line class="pic-axis" x1="6" x2=${WIDTH - 6} y1="30" y2="30"></line>
    ${ticks.map(
      (at) => svg`<line class="pic-axis" x1=${x(at)} x2=${x(at)} y1="30" y2="36"></line>
        <text class="pic-quiet" x=${x(at)} y="52" text-anchor=${at === 0 ? 'start' : 'middle'}>${minutes(at)}</text>`,
    )}
    ${bars
      .toSorted((one, other) => other.servedS - one.servedS)
      .map(
        (bar) => svg`<rect class=${`pic-strip pic-${standingOf(bar)}`} x=${x(bar.fromS)} y="8"
        width=${Math.max(2, x(bar.fromS + bar.servedS) - x(bar.fromS))} height="18" rx="2"></rect>`,
      )}
  </g>`;
}

/** One dwell: its window as a band, its aim as a mark, what was served as a bar. */
function row(bar: SeatingBar, at: number): TemplateResult {
  const { title, fromS, servedS, minS, targetS, maxS } = bar;
  const standing = standingOf(bar);
  const most = Math.max(servedS, maxS ?? targetS * 1.6, targetS) * 1.04;
  const x = (seconds: number): number => NAME + (Math.min(seconds, most) / most) * PLOT;
  const y = STRIP + at * ROW;
  return svg`<g>
    <text class="pic-text" x="0" y=${y + 19}>${minutes(fromS)}</text>
    <text class="pic-text" x="52" y=${y + 19}>${title.length > 26 ? `${title.slice(0, 25)}…` : title}</text>
    <rect class=${maxS === null ? 'pic-window pic-open' : 'pic-window'} x=${x(minS)} y=${y + 4}
      width=${Math.max(2, x(maxS ?? most) - x(minS))} height="20"></rect>
    <rect class=${`pic-bar pic-${standing}`} x=${NAME} y=${y + 9} width=${Math.max(2, x(servedS) - NAME)} height="10"></rect>
    <line class="pic-aim" x1=${x(targetS)} x2=${x(targetS)} y1=${y + 2} y2=${y + 26}></line>
    <text class=${standing === 'right' ? 'pic-text' : 'pic-text pic-amiss'} x=${NAME + PLOT + 12} y=${y + 19}>${saysOf(bar)}</text>
  </g>`;
}

/**
 * A picture of one seating's dwells in the order in which they began, with the same as text for who
 * can't see it.
 */
export function seatingPicture(bars: readonly SeatingBar[], name: string): TemplateResult {
  const order = bars.toSorted((one, other) => one.fromS - other.fromS);
  const amiss = order.filter((bar) => standingOf(bar) !== 'right');
  const height = STRIP + order.length * ROW + 4;
  const said =
    amiss.length === 0
      ? `All ${order.length} dwells within their windows.`
      : amiss.map((bar) => `${bar.title}: ${saysOf(bar)}`).join('; ');
  return html`<figure class="picture">
    <figcaption>
      ${name}. Above, minutes from the opening of the case; below, each dwell (bar) against its
      window (band) and its aim (mark), each row to its own scale.
    </figcaption>
    ${
      order.length === 0
        ? html`<p class="note">No dwell was timed.</p>`
        : html`<svg viewBox=${`0 0 ${WIDTH} ${height}`} role="img" aria-label=${`${name}. ${said}`}>
            ${strip(order)} ${order.map(row)}
          </svg>`
    }
    ${amiss.length === 0 ? nothing : html`<p class="pic-said">${said}.</p>`}
  </figure>`;
}
