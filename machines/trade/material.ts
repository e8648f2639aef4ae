import type { Contaminant, StepId } from '../contract/index.ts';
import type { Quantity, Span } from './number.ts';

/** The shape the material's inner surface must have before it is primed. */
export type Texture = 'abraded' | 'etched';

/** What a step removes, and why it leaves the rest. */
export interface Cleaning {
  readonly step: StepId;
  readonly rinse: StepId | null;
  readonly removes: readonly Contaminant[];
  /** True when the step also gives the texture. */
  readonly textures: boolean;
  readonly why: string;
}

/** One restoration material: what conditions it, what cleans it, what must never touch it. */
export interface Material {
  readonly code: string;
  readonly name: string;
  readonly isoClass: Quantity;
  readonly flexural: Span;
  readonly toughness: Span;
  readonly etchable: boolean;
  readonly texture: Texture;
  /** The step that gives the texture. */
  readonly conditioner: 'abrade' | 'porcelain-etch';
  readonly conditioning: Span;
  /** Hydrofluoric acid strength the window is for; null where it is not used. */
  readonly acidPercent: Quantity | null;
  /** Air abrasion settings; null where it is not used. */
  readonly abrasion: {
    readonly particle: Quantity;
    readonly pressure: Span;
    readonly distance: Quantity;
  } | null;
  readonly primer: 'silane' | 'zirconia-primer';
  /** A cement that carries phosphate takes the primer's place. */
  readonly phosphateCementPrimes: boolean;
  /** In order of preference: the first that removes what is there is taken. */
  readonly cleanings: readonly Cleaning[];
  readonly biteBefore: { readonly allowed: boolean; readonly how: string };
  readonly attenuation: { readonly high: Quantity; readonly low: Quantity };
  readonly thickness: { readonly occlusal: Span; readonly axial: Span };
  /** Steps that must never be taken on it. */
  readonly forbidden: readonly { readonly step: StepId; readonly why: string }[];
}
