/** A listener on a recogniser, with a few phrases. */
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { Listener } from '../../assistant/ear/listener.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';

export const PHRASES =
  '#JSGF V1.0; grammar now; public <phrase> = done | not done | next step | it is down;';

export function listenerOn(recogniser: Recogniser, now: () => number = () => 0): Listener {
  return new Listener({
    recogniser,
    attention: ATTENTION,
    phrases: PHRASES,
    now,
    lateMs: 4_000,
  });
}
