import type { Contaminant, Material as MaterialId, StepId } from '../contract/index.ts';
import { baseMetal, metalCeramicBase, metalCeramicNoble, nobleMetal, titanium } from './alloys.ts';
import {
  feldspathic,
  leucite,
  lithiumSilicateZirconia,
  polymerInfiltrated,
} from './glass-ceramics.ts';
import { lithiumDisilicate } from './lithium-disilicate.ts';
import type { Material } from './material.ts';
import { alumina, aluminaInfiltrated, zirconia4y, zirconia5y, zirconiaVeneered } from './oxides.ts';
import { resinMatrix } from './resin-matrix.ts';
import { zirconia3y } from './zirconia-3y.ts';

/** Every restoration material a plan can be made for. */
export const MATERIAL_TABLE: Readonly<Record<MaterialId, Material>> = {
  feldspathic,
  leucite,
  'lithium-disilicate': lithiumDisilicate,
  'lithium-silicate-zirconia': lithiumSilicateZirconia,
  'polymer-infiltrated': polymerInfiltrated,
  'resin-matrix': resinMatrix,
  'zirconia-3y': zirconia3y,
  'zirconia-4y': zirconia4y,
  'zirconia-5y': zirconia5y,
  'zirconia-veneered': zirconiaVeneered,
  alumina,
  'alumina-infiltrated': aluminaInfiltrated,
  'noble-metal': nobleMetal,
  'base-metal': baseMetal,
  titanium,
  'metal-ceramic-noble': metalCeramicNoble,
  'metal-ceramic-base': metalCeramicBase,
};

/** One material's table. */
export const materialOf = (id: MaterialId): Material => MATERIAL_TABLE[id];

/** What a step takes off the intaglio of a material; empty when it cleans nothing there. */
export const cleans = (material: MaterialId, step: StepId): readonly Contaminant[] =>
  materialOf(material).cleanings.find((cleaning) => cleaning.step === step)?.removes ?? [];
