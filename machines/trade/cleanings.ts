import { CONTAMINANTS } from '../contract/index.ts';
import type { Cleaning, Forbidden } from './material.ts';

/** What a fresh surface leaves nothing of: everything (trade reference, 2). */
const ALL = CONTAMINANTS;
/** What lies on a surface and has not got into it: saliva, and what is treated as it (2). */
const AS_SALIVA = ['saliva', 'glove', 'drop', 'try-in-paste', 'acid', 'glove-powder'] as const;
/** Blood, and the astringent that is rinsed off and then treated as it (2). */
const AS_BLOOD = ['blood', 'astringent'] as const;

/** Zirconia and alumina: the two valid routes after saliva. */
export const OXIDE_CLEANINGS: readonly Cleaning[] = [
  {
    step: 'cleaner',
    rinse: 'cleaner-rinse',
    removes: [...AS_SALIVA, ...AS_BLOOD],
    textures: false,
    why: 'The alkaline zirconia suspension takes the saliva phosphate off. Equal to uncontaminated in Feitosa 2015 and Kim 2015, not shown equal in Angkasith 2016.',
  },
  {
    step: 'abrade',
    rinse: null,
    removes: ALL,
    textures: true,
    why: 'Alumina takes the contaminated layer off and gives a fresh rough surface; the most effective after saliva (Yang 2008) and the choice after silicone (method of Quaas 2007).',
  },
];

/** Alloys: as oxide ceramics, by common practice. */
export const ALLOY_CLEANINGS: readonly Cleaning[] = [
  {
    step: 'cleaner',
    rinse: 'cleaner-rinse',
    removes: [...AS_SALIVA, ...AS_BLOOD],
    textures: false,
    why: 'An alkaline cleaner takes saliva off an alloy (common practice); water alone does not.',
  },
  {
    step: 'abrade',
    rinse: null,
    removes: ALL,
    textures: true,
    why: 'Alumina gives an alloy a fresh rough surface for cement and primer, and takes off what the try-in left.',
  },
];

/** Resin-matrix ceramic: only a fresh surface is sure. */
export const RESIN_CLEANINGS: readonly Cleaning[] = [
  {
    step: 'abrade',
    rinse: null,
    removes: ALL,
    textures: true,
    why: 'Alumina opens fresh filler for the silane; water alone leaves the film (judgement).',
  },
];

const etching = (why: string): Cleaning => ({
  step: 'porcelain-etch',
  rinse: 'porcelain-etch-rinse',
  removes: ALL,
  textures: true,
  why,
});

/** Etched glass-ceramics; `acidWhy` and `etchWhy` name the evidence for this material. */
export const glassCleanings = (acidWhy: string, etchWhy: string): readonly Cleaning[] => [
  {
    step: 'acid-clean',
    rinse: 'acid-clean-rinse',
    removes: AS_SALIVA,
    textures: false,
    why: acidWhy,
  },
  etching(etchWhy),
];

/** Ceramic in a polymer network: etched again, nothing gentler is shown to do. */
export const networkCleanings = (etchWhy: string): readonly Cleaning[] => [etching(etchWhy)];

/** What no oxide ceramic may meet. */
export const OXIDE_FORBIDDEN: readonly Forbidden[] = [
  {
    step: 'porcelain-etch',
    why: 'No glass phase to etch: false security and a needless hazard.',
    cause: 'etch-finds-no-glass',
  },
  {
    step: 'silane',
    why: 'No silica to bind: silane alone never counts as a zirconia primer.',
    cause: 'silane-finds-no-silica',
  },
  {
    step: 'acid-clean',
    why: 'Phosphate takes the sites the phosphate primer needs; worst of four in Feitosa 2015.',
    cause: 'phosphate-takes-sites',
  },
  {
    step: 'metal-primer',
    why: 'A sulfur primer binds noble metal, not oxide: 10-MDP does.',
    cause: 'metal-primer-on-oxide',
  },
];

/** What no etchable glass-ceramic may meet; `cleanerWhy` says what is known of cleaning paste on it. */
export const glassForbidden = (cleanerWhy: string): readonly Forbidden[] => [
  {
    step: 'abrade',
    why: 'Alumina at zirconia pressures chips and weakens a glass-ceramic: etch it instead.',
    cause: 'abrasion-chips-glass',
  },
  {
    step: 'zirconia-primer',
    why: 'A phosphate primer does not bind glass: silane does.',
    cause: 'phosphate-primer-on-glass',
  },
  {
    step: 'metal-primer',
    why: 'A metal primer does not bind glass: silane does.',
    cause: 'metal-primer-on-glass',
  },
  { step: 'cleaner', why: cleanerWhy, cause: 'cleaner-not-shown' },
];

/** What no alloy may meet. */
export const ALLOY_FORBIDDEN: readonly Forbidden[] = [
  {
    step: 'porcelain-etch',
    why: 'Hydrofluoric acid corrodes metal and etches nothing useful on it.',
    cause: 'etch-corrodes-metal',
  },
  {
    step: 'silane',
    why: 'No silica to bind, unless the alloy was silica-coated by the lab.',
    cause: 'silane-finds-no-silica',
  },
  {
    step: 'acid-clean',
    why: 'Phosphoric acid is not shown to clean metal, and stands in the way of a primer (judgement).',
    cause: 'phosphate-on-metal',
  },
];

/** What a particle-filled resin may not meet. */
export const RESIN_FORBIDDEN: readonly Forbidden[] = [
  {
    step: 'porcelain-etch',
    why: 'Hydrofluoric acid attacks the filler and leaves a weak surface: abrade it instead.',
    cause: 'etch-eats-filler',
  },
  {
    step: 'zirconia-primer',
    why: 'A phosphate primer does not bind the filler: silane does.',
    cause: 'phosphate-primer-on-filler',
  },
  {
    step: 'metal-primer',
    why: 'A metal primer does not bind the filler: silane does.',
    cause: 'metal-primer-on-filler',
  },
  {
    step: 'acid-clean',
    why: 'Phosphoric acid alone is not shown to clean it: abrade it again.',
    cause: 'phosphate-on-filler',
  },
  {
    step: 'cleaner',
    why: 'The alkaline cleaner is not shown to clean it: abrade it again.',
    cause: 'cleaner-not-shown',
  },
];

const NO_GRIND = 'The ceramic has no support before it is bonded: a bite checked now can crack it.';
/** No bite before cementing. */
export const BITE_AFTER_ONLY = { allowed: false, how: NO_GRIND } as const;
/** Bite first. */
export const BITE_FIRST = {
  allowed: true,
  how: 'Bite marked before cementing: foil, centric, then excursions.',
} as const;
