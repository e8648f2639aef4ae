/** What is found, and what lands where it should not. */
import { type Contaminant, type Finding, FINDINGS } from '../../machines/contract/index.ts';
import { row, type Row } from './row.ts';

const FINDING_SAYS = {
  'contacts-tight': 'contacts tight | contacts are tight | tight contact',
  'contacts-open': 'contacts open | contacts are open | open contact',
  'not-seating': "it's not seating | it is not seating | it won't go down",
  rocking: "it's rocking | it is rocking | it rocks",
  'margin-open': "open margin | margin is open | margin's open",
  'shade-wrong': "shade's wrong | shade is wrong | wrong shade",
  'bite-high': "bite's high | bite is high | bite high",
  'still-bleeding': "still bleeding | it's still bleeding",
  'bleeding-stopped': "bleeding stopped | bleeding's stopped | bleeding has stopped",
  moved: 'it moved | crown moved | the crown moved',
} as const satisfies Record<Finding, string>;

/** Contaminants as they are named before "on" and the surface. */
const ON = {
  saliva: 'saliva',
  blood: 'blood',
  'fit-paste': 'silicone | silicone left',
  'try-in-paste': 'shade paste',
  cement: 'old cement',
  disclosing: 'marking colour | marking spray',
  provisional: 'temporary cement',
  'provisional-eugenol': 'eugenol cement',
  astringent: 'astringent',
  peroxide: 'peroxide',
  'glove-powder': 'glove powder',
  'air-line-oil': 'oil | air line oil',
  stone: 'stone | plaster',
} as const satisfies Partial<Record<Contaminant, string>>;

const SURFACES = {
  intaglio: 'it | the crown',
  prep: 'the prep',
  field: 'the field',
} as const;

const ON_SURFACES = [
  ...([
    'saliva',
    'blood',
    'fit-paste',
    'try-in-paste',
    'cement',
    'disclosing',
    'provisional',
  ] as const),
  ...(['provisional-eugenol', 'astringent', 'peroxide', 'glove-powder', 'air-line-oil'] as const),
  'stone' as const,
];

const SOILING: readonly Row[] = [
  ...ON_SURFACES.flatMap((contaminant) =>
    (['intaglio', 'prep', 'field'] as const).map((surface) =>
      row(`(${ON[contaminant]}) on (${SURFACES[surface]})`, { type: 'soil', surface, contaminant }),
    ),
  ),
  row('field is wet | field got wet', { type: 'soil', surface: 'field', contaminant: 'saliva' }),
  row('touched it | touched the crown', {
    type: 'soil',
    surface: 'intaglio',
    contaminant: 'glove',
  }),
  row('touched the prep', {
    type: 'soil',
    surface: 'prep',
    contaminant: 'glove',
  }),
  row('dropped it | crown dropped', {
    type: 'soil',
    surface: 'intaglio',
    contaminant: 'drop',
  }),
  row('acid got on it | acid got on the crown', {
    type: 'soil',
    surface: 'intaglio',
    contaminant: 'acid',
  }),
];

export const FOUND: readonly Row[] = [
  ...FINDINGS.map((finding) => row(FINDING_SAYS[finding], { type: 'find', finding })),
  ...SOILING,
  row('start over | contaminated start over | start this unit over', { type: 'start-over' }),
];
