/** Invented states of the chairside screen. */
import {
  type Call,
  type ChairView,
  type DwellView,
  type StepId,
  STEPS,
} from '../../machines/contract/index.ts';
import type { ChairState, EarView, LastHeard } from './model.ts';
import { stepWords } from './words.ts';

/** A zirconia crown's steps, roughly. */
const ELSEWHERE: readonly StepId[] = [
  'porcelain-etch',
  'porcelain-etch-rinse',
  'silane',
  'acid-clean',
  'acid-clean-rinse',
  'tooth-etch',
  'tooth-etch-rinse',
];
const ORDER = STEPS.filter((step) => !ELSEWHERE.includes(step));

const stepsAt = (now: StepId, running: boolean): ChairView['steps'] => {
  const at = ORDER.indexOf(now);
  return ORDER.map((id, n) => {
    const here = running ? 'running' : 'now';
    const before = id === 'fit-paste' ? 'skipped' : 'done';
    return {
      id,
      title: stepWords(id),
      status: n < at ? before : n === at ? here : n === at + 2 ? 'again' : 'open',
    };
  });
};

const base: ChairView = {
  reference: 'DEMO-36',
  invented: true,
  pace: 'going',
  unit: {
    tooth: '36',
    name: 'lower left first molar',
    material: 'zirconia-3y',
    materialName: '3Y zirconia',
  },
  units: [
    { tooth: '36', name: 'lower left first molar', finished: false, active: true },
    { tooth: '14', name: 'upper right first premolar', finished: false, active: false },
  ],
  step: {
    id: 'margins',
    title: 'Seat and margins',
    todo: 'Check the seat and the margins, all round, both directions.',
    gate: 'the explorer passes both ways without a catch',
    who: 'dentist',
    cautions: [{ id: 'aspiration', text: 'The crown can be dropped. Guard the airway.' }],
    targetS: null,
  },
  then: { id: 'shade', title: 'Shade' },
  steps: stepsAt('margins', false),
  dwells: [],
  clocks: [],
  seatByMs: null,
  surfaces: {
    where: 'mouth',
    intaglio: 'soiled',
    contaminants: ['saliva'],
    prep: 'clean',
    field: 'open',
    cement: 'none',
  },
  asked: null,
  refusal: null,
  deviations: 0,
};

const cleanerDwell: DwellView = {
  step: 'cleaner',
  title: 'Alkaline cleaner',
  tooth: '36',
  elapsedMs: 12_400,
  minMs: 15_000,
  targetMs: 20_000,
  maxMs: 60_000,
  phase: 'short',
  held: false,
};

const onBench: ChairView = {
  ...base,
  step: {
    id: 'cleaner',
    title: 'Alkaline cleaner',
    todo: 'Cleaner on the whole inside of the crown.',
    gate: '',
    who: 'assistant',
    cautions: [
      {
        id: 'alkaline-cleaner',
        text: 'Strong alkali, pH 13. Gloves and eye protection. Keep it out of the mouth.',
      },
    ],
    targetS: 20,
  },
  then: { id: 'cleaner-rinse', title: 'Rinse the cleaner off' },
  steps: stepsAt('cleaner', true),
  surfaces: { ...base.surfaces, where: 'bench' },
};

const live: ChairState['live'] = {
  commands: [
    'begin',
    'finish',
    'short',
    'skip',
    'override',
    'soil',
    'find',
    'next',
    'back',
    'undo',
    'pause',
    'stop',
    'hold',
    'release',
    'add',
    'ask',
    'note',
  ],
  begins: ['cleaner', 'abrade', 'zirconia-primer', 'mix', 'seat'],
  finishes: ['cleaner'],
};

/** Heard with middling confidence. */
const ASKED_BACK = {
  id: 'ask-heard',
  command: { type: 'soil', surface: 'intaglio', contaminant: 'saliva' },
  step: null,
} as const satisfies Call;

const heard = (
  words: string,
  became: LastHeard['became'],
  via: LastHeard['via'] = 'voice',
): LastHeard => ({ words, via, score: via === 'voice' ? 0.93 : null, became });

interface ChairSample {
  readonly chair: ChairState;
  readonly ear: EarView;
}

const sample = (
  view: ChairView,
  ear: EarView,
  lastHeard: LastHeard | null,
  lastCall: ChairState['lastCall'],
): ChairSample => ({
  ear,
  chair: { view, live, lastHeard, lastCall, typedHistory: ['cleaner on'] },
});

/** Chairside, in every shape it takes. */
export const CHAIR_SAMPLES = {
  'chair-step': sample(base, { kind: 'asleep' }, heard('polishing now', 'out-of-turn'), {
    id: 'step',
    step: 'margins',
    seconds: null,
  }),
  'chair-dwell-short': sample(
    { ...onBench, dwells: [cleanerDwell] },
    { kind: 'awake' },
    heard('cleaner on', 'accepted'),
    { id: 'begun', step: 'cleaner', seconds: 20 },
  ),
  'chair-dwell-refused': sample(
    {
      ...onBench,
      dwells: [cleanerDwell],
      refusal: {
        id: 'dwell-too-short',
        step: 'cleaner',
        wayOn: null,
        seconds: 3,
        overridable: true,
      },
    },
    { kind: 'speaking' },
    heard('done', 'refused'),
    {
      id: 'refusal',
      refusal: {
        id: 'dwell-too-short',
        step: 'cleaner',
        wayOn: null,
        seconds: 3,
        overridable: true,
      },
    },
  ),
  'chair-dwell-right': sample(
    {
      ...onBench,
      dwells: [{ ...cleanerDwell, elapsedMs: 24_100, phase: 'right' }],
      deviations: 1,
    },
    { kind: 'hearing' },
    heard('how long left', 'accepted'),
    { id: 'time', step: 'cleaner' },
  ),
  'chair-dwell-long': sample(
    {
      ...onBench,
      seatByMs: 83_000,
      step: {
        id: 'bond',
        title: 'Bond',
        todo: 'Bond on the prep. Rub it in for the whole time, also at the margins.',
        gate: '',
        who: 'dentist',
        cautions: [],
        targetS: 20,
      },
      dwells: [
        {
          ...cleanerDwell,
          step: 'bond',
          title: 'Bond',
          elapsedMs: 64_900,
          minMs: 20_000,
          targetMs: 20_000,
          phase: 'long',
        },
        {
          ...cleanerDwell,
          step: 'silane',
          title: 'Silane',
          tooth: '14',
          elapsedMs: 30_000,
          minMs: 60_000,
          targetMs: 60_000,
          maxMs: 180_000,
          phase: 'short',
        },
      ],
      surfaces: {
        ...base.surfaces,
        where: 'bench',
        intaglio: 'primed',
        contaminants: [],
        prep: 'coated',
        field: 'dry',
        cement: 'mixed',
      },
      deviations: 2,
    },
    { kind: 'asleep' },
    heard('bond on', 'accepted', 'touch'),
    { id: 'overdue', step: 'bond' },
  ),
  'chair-refused-in-mouth': sample(
    {
      ...base,
      refusal: {
        id: 'in-mouth',
        step: 'cleaner',
        wayOn: 'take-out',
        seconds: null,
        overridable: false,
      },
    },
    { kind: 'speaking' },
    heard('cleaner on', 'refused'),
    {
      id: 'refusal',
      refusal: {
        id: 'in-mouth',
        step: 'cleaner',
        wayOn: 'take-out',
        seconds: null,
        overridable: false,
      },
    },
  ),
  'chair-question': sample(
    {
      ...onBench,
      step: {
        id: 'mix',
        title: 'Mix',
        todo: 'Mix the cement.',
        gate: '',
        who: 'assistant',
        cautions: [],
        targetS: null,
      },
      dwells: [
        {
          ...cleanerDwell,
          step: 'zirconia-primer',
          title: 'Zirconia primer',
          tooth: '36',
          elapsedMs: 25_000,
          phase: 'right',
          held: true,
        },
      ],
      asked: { id: 'ask-begin', step: 'mix' },
    },
    { kind: 'awake' },
    heard('mixing now', 'asked'),
    { id: 'ask-begin', step: 'mix' },
  ),
  'chair-asked-back': sample(
    { ...onBench, asked: ASKED_BACK },
    { kind: 'awake' },
    heard('saliva on the crown', 'asked'),
    ASKED_BACK,
  ),
  'chair-reason': sample(
    { ...onBench, asked: { id: 'ask-reason', for: 'skip' } },
    { kind: 'awake' },
    heard('skip it', 'asked', 'key'),
    { id: 'ask-reason', for: 'skip' },
  ),
  'chair-cement': sample(
    {
      ...onBench,
      seatByMs: -2000,
      refusal: {
        id: 'working-time-over',
        step: 'seat',
        wayOn: null,
        seconds: null,
        overridable: true,
      },
      step: {
        id: 'seat',
        title: 'Seat',
        todo: 'Seat the crown. Finger first, then firm and straight.',
        gate: 'margins closed all round',
        who: 'dentist',
        cautions: [{ id: 'aspiration', text: 'The crown can be dropped. Guard the airway.' }],
        targetS: 60,
      },
      surfaces: {
        ...base.surfaces,
        where: 'bench',
        intaglio: 'loaded',
        contaminants: [],
        prep: 'ready',
        field: 'dry',
        cement: 'loaded',
      },
    },
    {
      kind: 'trouble',
      // As long as this sentence becomes with a name out of a browser.
      sentence: 'Another microphone is listening.',
      remedy: 'Plug in “Headset at chair 2 (USB, invented),…”, or choose another in the settings.',
    },
    heard('seating now', 'refused', 'typed'),
    { id: 'working-time-over' },
  ),
  'chair-stopped': sample(
    { ...onBench, pace: 'stopped' },
    {
      kind: 'trouble',
      sentence: 'The microphone is not allowed.',
      remedy: "Allow the microphone in the browser's address bar; hearing starts by itself then.",
    },
    heard('stop', 'accepted'),
    { id: 'stopped' },
  ),
  'chair-finished': sample(
    {
      ...base,
      step: null,
      then: null,
      units: base.units.map((unit) => ({ ...unit, finished: true })),
      surfaces: {
        where: 'seated',
        intaglio: 'seated',
        contaminants: [],
        prep: 'seated',
        field: 'dry',
        cement: 'set',
      },
    },
    { kind: 'off' },
    heard('lots are logged', 'accepted'),
    { id: 'finished' },
  ),
} as const satisfies Readonly<Record<string, ChairSample>>;
