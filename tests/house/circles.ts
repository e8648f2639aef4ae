/** Whether files take from each other in a circle; for a type counts as for anything else. */
import type { Arrow } from './modules.ts';

/** The arrows that lie on a circle, or between two; none when every way through the house ends. */
export function circling(arrows: readonly Arrow[]): readonly Arrow[] {
  let left = arrows.filter(({ from, to }) => from !== to);
  for (let before = Infinity; left.length < before;) {
    before = left.length;
    const from = new Set(left.map((arrow) => arrow.from));
    const to = new Set(left.map((arrow) => arrow.to));
    left = left.filter((arrow) => from.has(arrow.to) && to.has(arrow.from));
  }
  return left;
}
