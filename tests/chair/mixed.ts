import type { CaseFile, CementClass, Substrate } from '../../machines/contract/index.ts';
import { CEMENT_CLASSES, SUBSTRATES } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import { combined } from './combinations.ts';

/** An invented zirconia bridge whose two retainers sit on different things; null where it does not go together. */
export function mixedBridge(
  first: Substrate,
  other: Substrate,
  cement: CementClass,
): CaseFile | null {
  const made = combined({ material: 'zirconia-3y', kind: 'bridge', substrate: first, cement });
  const unit = made?.units[0];
  if (made === null || unit?.bridge === undefined) return null;
  const retainers = unit.bridge.retainers.map((one) => ({ ...one, substrate: other }));
  const checked = checkCase({
    ...made,
    units: [{ ...unit, bridge: { ...unit.bridge, retainers } }],
  });
  return checked.ok ? checked.case : null;
}

/** Every pair of substrates that a bridge can sit on, under every cement that may go on it. */
export const mixedBridges = (): readonly CaseFile[] =>
  SUBSTRATES.flatMap((first, n) =>
    SUBSTRATES.slice(n + 1).flatMap((other) =>
      CEMENT_CLASSES.flatMap((cement) => mixedBridge(first, other, cement) ?? []),
    ),
  );
