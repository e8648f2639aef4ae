import type { StepId } from '../contract/index.ts';
import { palmerOf, toothSpoken, universalOf } from '../form/index.ts';
import { SOURCES } from '../trade/index.ts';
import type { UnitContext } from './context.ts';
import { ifuOf } from './ifu.ts';
import { forKind } from './noun.ts';
import { seatingOrder } from './order.ts';
import { bySeat } from './by-seat.ts';
import { teethWords } from './seats.ts';
import { afterTryIn } from './steps.ts';
import { leastThickness, thicknessOf } from './thickness.ts';
import { unitNotes } from './unit-notes.ts';

type Note = (context: UnitContext, planned: readonly StepId[]) => string | null;
const say = (condition: boolean, text: string): string | null => (condition ? text : null);

const tooth: Note = ({ unit }) =>
  `Tooth ${unit.tooth} is ISO 3950, said "${toothSpoken(unit.tooth)}"; ${universalOf(unit.tooth) ?? ''} in the Universal system, ${palmerOf(unit.tooth) ?? ''} in Palmer notation.`;

const contamination: Note = ({ unit, material }) => {
  const soiled = afterTryIn(unit).contaminants;
  if (unit.substrate === 'titanium-base') {
    return 'Bonded before any try-in: the inside was only handled. If it was in a mouth all the same, say so: it is treated as contaminated.';
  }
  if (unit.countsCleanReason === undefined) {
    return `After the try-in the inside counts as contaminated: ${soiled.join(', ')}.`;
  }
  const still = soiled.length === 0 ? '' : ` It does not cover ${soiled.join(', ')}.`;
  return `The inside counts as clean after the try-in because: ${unit.countsCleanReason}. A departure from the usual for ${material.name}, kept in the record.${still}`;
};

const labTexture: Note = ({ unit, material }) => {
  if (unit.intaglioFromLab === 'untreated' || unit.intaglioFromLab === material.texture)
    return null;
  return unit.intaglioFromLab === 'etched'
    ? `Etched by the lab counts for nothing on ${material.name}: it has no glass to etch. Treated as untreated.`
    : `Abraded by the lab counts for nothing on ${material.name}: look for chips; it is etched here.`;
};

const primer: Note = ({ cement, clock, material }, planned) => {
  if (planned.includes(material.primer)) return null;
  return clock.table.takesPrimer
    ? `No primer planned: ${cement.label} carries a phosphate monomer itself.`
    : `No primer planned: ${clock.table.name} bonds to none.`;
};

/** What happens when the shelf cannot undo what may land on the intaglio. */
const noWayBack: Note = ({ caseFile, material }) => {
  const { abrasion, hydrofluoricAcid } = caseFile.shelf;
  if (material.conditioner === 'abrade') {
    return say(
      abrasion === null,
      'No abrasion unit on the shelf: after silicone or cement inside, the crown goes back to the lab.',
    );
  }
  return say(
    hydrofluoricAcid === null,
    'No hydrofluoric acid on the shelf: after blood, silicone or cement inside, the crown goes back to the lab.',
  );
};

const abrasionSetting: Note = ({ caseFile, material }, planned) => {
  const unit = caseFile.shelf.abrasion;
  if (unit === null || material.abrasion === null || !planned.includes('abrade')) return null;
  const { particle, pressure } = material.abrasion;
  const fits =
    unit.particleUm === particle.target &&
    unit.bar >= (pressure.min ?? 0) &&
    unit.bar <= (pressure.max ?? unit.bar);
  return say(
    !fits,
    `Abrasion unit: ${unit.particleUm} micrometre at ${unit.bar} bar; ${material.name} wants ${particle.target} micrometre at ${pressure.min} to ${pressure.max} bar (${SOURCES[pressure.source].cite}).`,
  );
};

const acidStrength: Note = ({ caseFile, material }, planned) => {
  const acid = caseFile.shelf.hydrofluoricAcid;
  if (acid === null || material.acidPercent === null || !planned.includes('porcelain-etch')) {
    return null;
  }
  return say(
    acid.percent > material.acidPercent.value && acid.ifu === undefined,
    `Hydrofluoric acid ${acid.percent} %: the built-in window is for ${material.acidPercent.value} %. Stronger acid weakens ${material.name} (${SOURCES.JDSR24.cite}): put its instructions for use on the shelf.`,
  );
};

const substrate: Note = ({ substrate: { note } }) => note;

const eugenol: Note = ({ unit, clock }) =>
  say(
    unit.provisionalCement === 'eugenol' && clock.table.oxygenInhibited,
    'Eugenol provisional cement under a resin: clean it off mechanically; seven days or more since it was placed are safer (common practice, evidence mixed).',
  );

/** What each retainer sits on, where that differs. */
const retainers: Note = ({ seats, trade }) => {
  const under = seats.map(({ substrate: on }) => trade.substrates[on].of === 'abutment');
  const uneven =
    under.includes(true) && under.includes(false)
      ? ' A tooth gives under load and an implant does not: that both carry one bridge is decided by the dentist (judgement).'
      : '';
  return say(
    seats.length > 1,
    `The retainers sit on different substrates: ${seats.map(({ teeth, substrate: on }) => `${teethWords(teeth)} on ${trade.substrates[on].name}`).join(', ')}. Each step of the tooth side names those it is for; one step closes it for all.${uneven}`,
  );
};

const selfEtch: Note = ({ caseFile, unit, clock }) =>
  say(
    clock.table.moisture === 'bonded' &&
      caseFile.shelf.phosphoricAcid === null &&
      unit.substrate === 'dentin',
    'No phosphoric acid on the shelf: the adhesive is used in self-etch mode; enamel at the margin bonds less.',
  );

const adhesive: Note = ({ cement, clock, caseFile }, planned) =>
  say(
    planned.includes('bond') &&
      clock.table.setsAlone &&
      (caseFile.shelf.adhesive?.acidic === undefined || cement.amine === undefined),
    `Adhesive and ${cement.label} must be matched: an acidic adhesive stops an amine-cured resin unless an activator is used (${SOURCES.Sanares01.cite}, from memory). If the primer speeds the cement on contact, reckon with half the working time unless its instructions say otherwise (judgement).`,
  );

const isolation: Note = ({ unit, clock }) =>
  say(
    unit.isolation === 'rolls' && clock.table.moisture === 'bonded',
    'Adhesive resin with cotton rolls: a dam is safer.',
  );

const lightNote: Note = ({ light, clock, caseFile }) => {
  if (light !== null) {
    return say(
      !light.reaches,
      'Light alone does not set the cement through this restoration: light the margins, and wait for the set.',
    );
  }
  return say(
    clock.table.lightCured && caseFile.shelf.light === null,
    'No light on the shelf: the cement sets by itself, and weaker than with light (Vrochari 2009).',
  );
};

const weakLight: Note = ({ light, caseFile, trade }) => {
  const lamp = caseFile.shelf.light;
  if (light === null || lamp === null) return null;
  const { alarm, drift } = trade.light;
  const left = lamp.baselineMwCm2 === undefined ? 1 : lamp.mwCm2 / lamp.baselineMwCm2;
  if (left < drift.value) {
    return `The light reads ${Math.round(left * 100)} % of its baseline, below ${drift.value * 100} %: have it seen to; until then the seconds here are worked out from today's reading.`;
  }
  return say(
    lamp.mwCm2 < alarm.value,
    `The light reads below ${alarm.value} mW/cm2: have it seen to.`,
  );
};

const thickness: Note = ({ unit, material, clock }) => {
  const span = thicknessOf(unit, material);
  const least = leastThickness(unit, material, clock.table);
  if (span === null || least === null) return null;
  if (unit.thicknessMm < least) {
    const all = unit.belowMinimumReason;
    return `Thickness ${unit.thicknessMm} mm is below the ${least} mm of ${material.name} under ${clock.table.name} (common practice): it may break.${all === undefined ? '' : ` Seated all the same because: ${all}.`}`;
  }
  return say(
    unit.thicknessMm < span.target && material.family === 'glass',
    `Thickness ${unit.thicknessMm} mm of ${material.name}: enough only because it is bonded; ${span.target} mm is the aim (common practice).`,
  );
};

const room: Note = ({ caseFile, clock, trade }) =>
  say(
    caseFile.roomC !== trade.clock.reference.value,
    `At ${caseFile.roomC} degrees C the working time is ${clock.workingS} s: ${clock.workingFrom}. In the mouth it runs faster.`,
  );

const team: Note = ({ caseFile, unit }) => {
  if (unit.substrate === 'titanium-base') {
    return 'On the bench: crown and base are conditioned one after the other, and neither is touched between its primer and the cement.';
  }
  return caseFile.team === 'solo'
    ? 'Alone: the inside first; park the crown primed, dry and covered; then isolate and condition the tooth. One unit at a time, with the cement that gives the longest working time.'
    : 'Four-handed: the assistant cleans and conditions the inside while the dentist isolates and conditions the tooth, so that neither surface waits.';
};

const many: Note = ({ caseFile, trade }) => {
  if (caseFile.units.length === 1) return null;
  const order = seatingOrder(caseFile, trade).map((mix) => mix.join(' with '));
  const shared = seatingOrder(caseFile, trade).some((mix) => mix.length > 1);
  const clocks = shared
    ? ' Those named together may share a mix: both surfaces of both ready first; say the mix for each, then mix. Each has a clock of its own, which runs from its own word, so that neither is later than the mix. One that is not ready by then gets a mix of its own.'
    : ' Each has a mix of its own, with its own clock.';
  return `Several units: each tried in alone, then together. Seating order: ${order.join(', then ')}; ${trade.limits.unitsAMix.value} to a mix at most (common practice).${clocks}`;
};

const shelfTimes: Note = ({ caseFile, cement }, planned) => {
  const named = planned.flatMap((step) => ifuOf(step, caseFile.shelf)?.label ?? []);
  if (cement.workingS !== undefined || cement.settingS !== undefined) named.push(cement.label);
  return named.length === 0
    ? 'All times are the built-in ones: instructions for use outrank them.'
    : `Times from instructions for use on the shelf: ${[...new Set(named)].join(', ')}. All others are built in.`;
};

/** A note that hangs on the substrate, by the teeth it holds of. */
const eachSeat =
  (note: Note): Note =>
  (context, planned) => {
    const told = bySeat(context, context.seats, (at) => note(at, planned) ?? '');
    return told.length === 0 ? null : told.join(' ');
  };

const NOTES: readonly Note[] = [
  tooth,
  contamination,
  labTexture,
  primer,
  noWayBack,
  abrasionSetting,
  acidStrength,
  retainers,
  eachSeat(substrate),
  eugenol,
  eachSeat(selfEtch),
  adhesive,
  isolation,
  lightNote,
  weakLight,
  thickness,
  room,
  team,
  many,
];

/** What a clinician should know of this unit's plan, in sentences. */
export const notesOf = (context: UnitContext, planned: readonly StepId[]): string[] =>
  [
    ...NOTES.flatMap((note) => note(context, planned) ?? []),
    ...unitNotes(context, planned),
    shelfTimes(context, planned) ?? '',
  ].map((text) => forKind(text, context.unit.kind));
