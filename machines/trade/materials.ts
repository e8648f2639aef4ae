import type { Contaminant, Material as MaterialId, StepId } from '../contract/index.ts';
import { lithiumDisilicate } from './lithium-disilicate.ts';
import type { Material } from './material.ts';
import { zirconia3y } from './zirconia-3y.ts';

/** Every restoration material a plan can be made for. */
export const MATERIAL_TABLE = {
  'zirconia-3y': zirconia3y,
  'lithium-disilicate': lithiumDisilicate,
} as const satisfies Readonly<Record<MaterialId, Material>>;

/** One material's table. */
export const materialOf = (id: MaterialId): Material => MATERIAL_TABLE[id];

/** What a step takes off the intaglio of a material; empty when it cleans nothing there. */
export const cleans = (material: MaterialId, step: StepId): readonly Contaminant[] =>
  materialOf(material).cleanings.find((cleaning) => cleaning.step === step)?.removes ?? [];
