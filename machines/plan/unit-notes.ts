import type { StepId } from '../contract/index.ts';
import { SOURCES } from '../trade/index.ts';
import { cite } from './cite.ts';
import type { UnitContext } from './context.ts';
import { bySeat } from './by-seat.ts';
import { peroxideSpoils } from './seats.ts';

type Note = (context: UnitContext, planned: readonly StepId[]) => string | null;
const say = (condition: boolean, text: string): string | null => (condition ? text : null);

const composite: Note = ({ unit, material }) =>
  say(
    material.family === 'oxide' && ['onlay', 'veneer', 'resin-bonded-bridge'].includes(unit.kind),
    `Zirconia held by its bond alone: abrasion, phosphate primer and composite resin, all three, or it comes off (${SOURCES.Blatz16.cite}).`,
  );

const veneer: Note = ({ unit }) =>
  say(
    unit.kind === 'veneer',
    unit.substrate === 'enamel'
      ? `Veneer: every margin in enamel; the tooth next door under tape; ${unit.tryInPaste ? 'cement shade chosen with the try-in paste' : 'no shade paste is planned, so the shade of the cement is agreed some other way'}.`
      : 'Veneer off enamel: its margins still have to end in enamel; what bonds to dentin or a core is the part that fails.',
  );

const underVeneer: Note = ({ unit }) =>
  say(
    unit.kind === 'veneer' && unit.provisionalCement === 'eugenol',
    'A eugenol or acidic provisional cement does not belong under a bonded veneer: what is left of it inhibits the resin and fills the enamel. Clean it off mechanically, and wait.',
  );

const wing: Note = ({ unit, trade }) =>
  say(
    unit.kind === 'resin-bonded-bridge',
    `Resin-bonded bridge: enamel only, cleared of bite on the wing; one retainer fails more kindly than two (judgement). Registered debonds: ${trade.limits.wingDebonds.value} % without a common time base (Goodacre 2003).`,
  );

const bridge: Note = ({ unit }) =>
  say(
    unit.kind === 'bridge',
    'Bridge: dry-seat the path of insertion, load all retainers together, the cement with the longer working time, a second pair of hands (common practice). Floss under the pontic.',
  );

const implant: Note = ({ unit, substrate, clock, trade: { limits } }) => {
  if (substrate.of !== 'abutment' || unit.substrate === 'titanium-base') return null;
  const zinc =
    clock.table.family === 'acid-base'
      ? ' An acid-base cement shows on a radiograph and comes off again.'
      : '';
  return `Cement on an implant: a thin layer, extruded on a replica of the abutment outside the mouth first, then a radiograph: residual cement was on ${limits.residualOnImplants.value} % of the diseased implants, and ${limits.residualResolved.value} % resolved once it was off (${SOURCES.Wilson09.cite}).${zinc}`;
};

const base: Note = ({ unit }) =>
  say(
    unit.substrate === 'titanium-base',
    'Bonded on the bench: contacts, shade and bite are checked on the model first; in the mouth they come after the set, when the crown is screwed in.',
  );

const deep: Note = ({ unit, trade }) => {
  const most = trade.limits.marginBelowGum.value;
  const depth = unit.abutment?.marginBelowGumMm;
  return say(
    depth !== undefined && depth > most,
    `Margin ${depth ?? ''} mm below the gum, ${most} mm at most (common practice): the cement is out of reach; an abutment with a higher margin, or a screw-retained crown on a titanium base.`,
  );
};

const screw: Note = ({ unit }) =>
  say(
    unit.kind === 'implant-crown' && unit.abutment?.torqueNcm === undefined,
    'Torque: no value in the case; the instructions of the implant system give it.',
  );

const rinseDoes: Note = ({ material, trade }, planned) =>
  say(
    planned.includes('zirconia-primer') && material.name.includes('zirconia'),
    `If saliva gets on it after the primer: treated anew here. One paper found that a ${trade.limits.primedRinse.value} s water rinse kept the bond on zirconia already primed (${SOURCES.Angkasith16.cite}).`,
  );

const astringent: Note = ({ unit, clock, substrate, trade: { limits } }) => {
  if (unit.astringent === undefined || substrate.of === 'abutment') return null;
  const rinse = 'Astringent used: rinse before anything goes on the tooth.';
  if (clock.table.moisture === 'moist') {
    return `${rinse} Under a self-adhesive cement EDTA cleaned best after both agents (${SOURCES.Namburajan25.cite}).`;
  }
  return unit.astringent === 'aluminium-chloride' && clock.table.moisture === 'bonded'
    ? `${rinse} After ${limits.astringentStrength.value} % aluminium chloride self-etch bonded less, etch-and-rinse did not; scrubbing the adhesive ${limits.astringentScrub.target} s instead of ${limits.astringentScrub.min} helped (${SOURCES.Kuphasuk07.cite}).`
    : rinse;
};

const desensitiser: Note = ({ unit, trade: { limits } }) => {
  const { min, max } = limits.desensitiser;
  switch (unit.desensitiser) {
    case 'chlorhexidine':
      return `Chlorhexidine ${limits.chlorhexidine.value} %, ${min} to ${max} s after the etch, not rinsed off (common practice); its cement must allow it.`;
    case 'glutaraldehyde':
      return `Glutaraldehyde with HEMA, ${min} to ${max} s after the etch (common practice); its cement must allow it.`;
    default:
      return null;
  }
};

const ionomer: Note = ({ cement, trade: { limits } }) =>
  say(
    cement.class === 'glass-ionomer',
    `Water off the margins of a glass ionomer for ${limits.ionomerWater.value / 60} minutes: varnish or gel (common practice).`,
  );

const bleached: Note = ({ unit, clock, trade }) => {
  const { min, target } = trade.limits.bleachingDelay;
  const safest = trade.limits.bleachingSafest.value;
  const days = unit.bleachedDaysAgo;
  if (days === undefined || !peroxideSpoils(unit, clock.table)) return null;
  if (days < min) {
    return `Bleached ${days} days ago, and ${min} days are the least before a resin (Ferraz 2018). Bonded all the same because: ${unit.bleachedReason ?? ''}.`;
  }
  return say(
    days < target,
    `Bleached ${days} days ago: ${min} days are the least, ${target} to ${safest} are safer (common practice).`,
  );
};

const mode: Note = ({ unit, clock, substrate, trade }) => {
  if (clock.table.moisture !== 'bonded' || substrate.of !== 'tooth') return null;
  switch (unit.bonding) {
    case 'etch-and-rinse':
      return `Etch and rinse: acid on enamel first, dentin last and ${trade.substrates.dentin.etch.max} s at most; leave dentin moist, primer and adhesive agitated ${trade.limits.adhesiveAgitation.min} to ${trade.limits.adhesiveAgitation.max} s.`;
    case 'selective-enamel':
      return 'Selective enamel etch: acid on enamel only, then the adhesive in self-etch mode over all of it.';
    case 'self-etch':
      return 'Self-etch mode: no phosphoric acid; enamel at the margin bonds less than etched.';
    default:
      return null;
  }
};

const ferrule: Note = ({ substrate, trade: { form } }) =>
  say(
    substrate.of === 'core',
    `A core wants sound tooth under it all round: a ferrule of ${form.ferrule.min} to ${form.ferrule.target} mm (${cite(form.ferrule)}). A short one comes off with its core, whatever the cement.`,
  );

const sealed: Note = ({ unit }) =>
  say(
    unit.substrate === 'sealed-dentin' && unit.fitPaste,
    'Silicone fit paste on sealed dentin sticks: lubricate the surface first.',
  );

const slowLight: Note = ({ material, cement }) =>
  say(
    cement.class === 'adhesive-resin-self' && material.family === 'glass',
    'A self-cure resin under a translucent ceramic: a dual-cure one converts further where light reaches, and keeps its colour (judgement).',
  );

const dentin: Note = ({ unit, cement }) =>
  say(
    cement.class === 'self-adhesive-resin' && unit.substrate === 'enamel',
    'Self-adhesive resin on enamel: a separate enamel etch is optional, and raises its bond there (common practice).',
  );

const shows: Note = ({ unit, material }) =>
  say(
    unit.substrate.endsWith('metal-core') || unit.substrate === 'amalgam-core'
      ? material.family === 'glass' ||
          material.family === 'resin' ||
          unit.material === 'zirconia-5y'
      : false,
    'A metal core shows through a translucent restoration: an opaque cement, a masked core, or a more opaque material.',
  );

const biteLater: Note = ({ material, unit }, planned) =>
  say(
    !planned.includes('bite-before') && unit.substrate !== 'titanium-base',
    `Bite only after bonding. ${material.biteBefore.allowed ? 'So thin, it can crack before it is bonded.' : material.biteBefore.how}`,
  );

const expiry: Note = ({ caseFile }) =>
  say(caseFile.on === undefined, 'No day of appointment in the case: expiry dates are not judged.');

const tables: Note = ({ material }) =>
  material.notes.length === 0 ? null : material.notes.join(' ');
const luting: Note = ({ clock, substrate }) => {
  // What is said of dentin is of no use on an abutment.
  const abutment = substrate.of === 'abutment';
  const told = clock.table.notes.filter((note) => !(abutment && note.includes('dentin')));
  return told.length === 0 ? null : told.join(' ');
};

const NOTES: readonly Note[] = [
  tables,
  luting,
  ionomer,
  composite,
  veneer,
  underVeneer,
  wing,
  bridge,
  implant,
  base,
  deep,
  screw,
  rinseDoes,
  mode,
  ferrule,
  astringent,
  desensitiser,
  bleached,
  sealed,
  slowLight,
  dentin,
  shows,
  biteLater,
  expiry,
];

/** What a clinician should know of this kind of unit, what it sits on and what was done to it before. */
export const unitNotes = (context: UnitContext, planned: readonly StepId[]): string[] =>
  NOTES.flatMap((note) => bySeat(context, context.seats, (at) => note(at, planned) ?? ''));
