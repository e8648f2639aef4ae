/** What the screen says of a stretch of speech that was no command. */
import type { Hearing } from '../ear/listener.ts';
import type { LastHeard } from '../screens/model.ts';
import type { Taken } from '../session/hear-command.ts';

const BECAME = {
  // Our own voice is no news, and neither is talk that was not for us.
  'own voice': null,
  'out of turn': 'out-of-turn',
  'not addressed': 'not-addressed',
  'too late': 'too-late',
  'nothing in the grammar': 'not-understood',
  unclear: 'not-understood',
} as const satisfies Record<NonNullable<Hearing['why']>, LastHeard['became'] | null>;

/** Null when it says nothing. */
export function becameOf(
  { kind }: Exclude<Taken, { readonly kind: 'command' }>,
  { why }: Pick<Hearing, 'why'>,
): LastHeard['became'] | null {
  if (kind === 'attention') return 'attention';
  // A phrase that no longer means anything, or an answer too soft to be one.
  return why === null ? 'not-understood' : BECAME[why];
}
