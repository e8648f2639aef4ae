import type { UnitEvent } from '../../../machines/seating/index.ts';
import type { Act } from '../record.ts';

const REASONED = { reason: 'clinical-judgement', refusal: null, servedS: null } as const;

/** An accepted event as the record would have it; what conduct asks first is taken as asked and answered. */
export function actOf(event: UnitEvent, n: number): Act {
  const { at, step, type } = event;
  const base = { n, at, tooth: '', overrode: [], readBack: true, surface: null, contaminant: null };
  const plain = { ...base, step, deviation: null };
  if (type === 'soil.intaglio' || type === 'soil.prep' || type === 'soil.field') {
    const surface = type === 'soil.intaglio' ? 'intaglio' : type === 'soil.prep' ? 'prep' : 'field';
    return { ...plain, what: 'soil', surface, contaminant: event.contaminant };
  }
  if (type === 'counts-clean' || type === 'start-over') return { ...plain, what: type };
  if (type.startsWith('short.')) {
    return { ...plain, what: 'short', deviation: { kind: 'short', step, ...REASONED } };
  }
  if (type.startsWith('skip.')) {
    return { ...plain, what: 'skip', deviation: { kind: 'skipped', step, ...REASONED } };
  }
  if (type.startsWith('begin.')) return { ...plain, what: 'begin' };
  return { ...plain, what: type.startsWith('finish.') ? 'finish' : 'other' };
}
