import type { CauseId, Contaminant, StepId, UnitKind } from '../contract/index.ts';
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

/** Least connector of a bridge. Null where the tables know none. */
export interface Connector {
  readonly anterior: Quantity;
  readonly posterior: Quantity;
  /** With two pontics side by side; null: as with one. */
  readonly twoPontics: Quantity | null;
}

/** A step that a material must never meet: why in full, and as a refusal says it. */
export interface Forbidden {
  readonly step: StepId;
  readonly why: string;
  readonly cause: CauseId;
}

/** One restoration material: what conditions it, what cleans it, what must never touch it. */
export interface Material {
  readonly code: string;
  readonly name: string;
  /** Ceramics answer by their ISO 6872 class, metals and resins by what they are. */
  readonly family: 'glass' | 'resin' | 'oxide' | 'metal';
  /** ISO 6872 class, the lower where two are usual; null outside that standard. */
  readonly isoClass: Quantity | null;
  /** Flexural strength; of an alloy its 0.2 % proof stress. Null where the tables know none. */
  readonly flexural: Span | null;
  readonly toughness: Span | null;
  readonly etchable: boolean;
  readonly texture: Texture;
  /** The step that gives the texture. */
  readonly conditioner: 'abrade' | 'porcelain-etch';
  readonly conditioning: Span;
  /** Hydrofluoric acid strength the window is for; null where it is not used. */
  readonly acidPercent: Quantity | null;
  /** Air abrasion settings; null where it is not used. `particle` is the size aimed at, in its window. */
  readonly abrasion: {
    readonly particle: Span;
    readonly pressure: Span;
    readonly distance: Quantity;
  } | null;
  readonly primer: 'silane' | 'zirconia-primer' | 'metal-primer';
  /** What a metal primer must hold; null for other primers. */
  readonly monomer: 'sulfur' | 'phosphate' | null;
  /** A cement that carries phosphate takes the primer's place. */
  readonly phosphateCementPrimes: boolean;
  /** Phosphoric acid takes the sites its primer needs (law 3). */
  readonly phosphateSpoils: boolean;
  /** In order of preference: the first that removes what is there is taken. */
  readonly cleanings: readonly Cleaning[];
  /** Porcelain or glaze outside that abrasion and acid must spare. */
  readonly porcelainOutside: boolean;
  readonly biteBefore: { readonly allowed: boolean; readonly how: string };
  /** Null: no light passes. */
  readonly attenuation: { readonly high: Quantity; readonly low: Quantity } | null;
  /** Least thickness by use; null: not made of it. */
  readonly thickness: {
    readonly crown: Span | null;
    readonly axial: Span | null;
    readonly inlay: Span | null;
    readonly onlay: Span | null;
    readonly veneer: Span | null;
  };
  readonly connector: Connector | null;
  /** Kinds of unit that are not made of it, and why. */
  readonly notFor: Partial<Readonly<Record<UnitKind, string>>>;
  /** Steps that must never be taken on it. */
  readonly forbidden: readonly Forbidden[];
  /** What a clinician should know besides; sentences. */
  readonly notes: readonly string[];
}
