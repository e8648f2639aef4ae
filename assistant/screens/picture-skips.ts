/** How often each step was left out. */
import { html, svg, type TemplateResult } from 'lit';

/** A step, how often it was asked for and how often left out. */
export interface SkipBar {
  readonly title: string;
  readonly asked: number;
  readonly skipped: number;
}

const WIDTH = 760;
const NAME = 210;
const PLOT = 400;
const ROW = 26;

const share = ({ asked, skipped }: SkipBar): number => (asked === 0 ? 0 : skipped / asked);

/** Steps that were left out at all, the most often first; fewer than `small` asked for are called few. */
export function skipPicture(steps: readonly SkipBar[], small = 20): TemplateResult {
  const rows = steps
    .filter(({ skipped }) => skipped > 0)
    .toSorted((one, other) => share(other) - share(one))
    .slice(0, 20);
  if (rows.length === 0) return html`<p class="note">No step was left out.</p>`;
  const most = Math.max(0.05, ...rows.map(share));
  const said = rows
    .slice(0, 5)
    .map((row) => `${row.title} ${(share(row) * 100).toFixed(0)} %`)
    .join(', ');
  return html`<figure class="picture">
    <figcaption>Steps left out, of the times they were asked for.</figcaption>
    <svg
      viewBox=${`0 0 ${WIDTH} ${rows.length * ROW + 6}`}
      role="img"
      aria-label=${`Steps left out most: ${said}`}
    >
      ${rows.map(
        (row, i) => svg`<text class="pic-text" x="0" y=${i * ROW + 18}>${row.title}</text>
          <rect class="pic-bar pic-plain" x=${NAME} y=${i * ROW + 5} width=${Math.max(2, (share(row) / most) * PLOT)} height="16" rx="2"></rect>
          <text class="pic-text" x=${NAME + Math.max(2, (share(row) / most) * PLOT) + 8} y=${i * ROW + 18}>${(share(row) * 100).toFixed(1)} %, ${row.skipped} of ${row.asked}${row.asked < small ? ' (few)' : ''}</text>`,
      )}
    </svg>
  </figure>`;
}
