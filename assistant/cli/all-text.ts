import {
  CEMENT_CLASSES,
  MATERIALS,
  STEPS,
  SUBSTRATES,
  UNIT_KINDS,
} from '../../machines/contract/index.ts';
import type {
  CementClass,
  Material,
  StepId,
  Substrate,
  UnitKind,
  UnitPlan,
} from '../../machines/contract/index.ts';
import { KIND_NAME, makePlan } from '../../machines/plan/index.ts';
import { MATERIAL_TABLE, SUBSTRATE_TABLE } from '../../machines/trade/index.ts';
import type { Span } from '../../machines/trade/index.ts';
import { caseOf, type Wanted } from './all-cases.ts';
import { wrapped } from './text.ts';

type Step = UnitPlan['steps'][number];

const window = ({ min, target, max, unit }: Span): string =>
  `${min ?? 'any'} / ${target} / ${max ?? 'any'} ${unit}`;

/** What is the same for every plan of a material. */
const materialText = (id: Material): string => {
  const {
    code,
    name,
    isoClass,
    texture,
    conditioning,
    acidPercent,
    abrasion,
    primer,
    cleanings,
    thickness,
    forbidden,
    notFor,
    notes,
  } = MATERIAL_TABLE[id];
  const line = (label: string, text: string): string =>
    wrapped(text, `  ${label.padEnd(10)}`, ' '.repeat(12));
  const uses = Object.entries(thickness).flatMap(([use, span]) =>
    span === null ? [] : [`${use} ${span.min} (aim ${span.target})`],
  );
  return [
    `${'='.repeat(96)}\n${name.toUpperCase()} (${code}${isoClass === null ? '' : `, ISO 6872 class ${isoClass.value}`})`,
    line(
      texture,
      `${window(conditioning)}${acidPercent === null ? '' : `, hydrofluoric acid ${acidPercent.value} %`}${
        abrasion === null
          ? ''
          : `, alumina ${window(abrasion.particle)}, ${window(abrasion.pressure)}, ${abrasion.distance.value} mm away`
      }`,
    ),
    line('primer', primer.replaceAll('-', ' ')),
    ...cleanings.map(({ step, removes, why }) =>
      line('cleans', `${step.replaceAll('-', ' ')}: ${removes.join(', ')}. ${why}`),
    ),
    line('thickness', `${uses.join(', ')} mm`),
    ...forbidden.map(({ step, why }) => line('never', `${step.replaceAll('-', ' ')}: ${why}`)),
    ...Object.entries(notFor).map(([kind, why]) => line('not for', `${kind}: ${why}`)),
    ...notes.map((note) => line('note', note)),
  ].join('\n');
};

const short = ({ id, dwell, goodFor }: Step): string =>
  `${id}${dwell === null ? '' : ` ${dwell.targetS}`}${goodFor === null ? '' : ` (good for ${goodFor.seconds})`}`;

const PARTS = {
  before: ['provisional-off', 'take-out'],
  inside: ['intaglio-rinse', 'primer-dry'],
  tooth: ['isolate', 'prep-dry'],
  after: ['mix', 'polish'],
} as const satisfies Readonly<Record<string, readonly [StepId, StepId]>>;

/** The steps of one part of a plan by their ids, with the seconds aimed at. */
const partText = ({ steps }: UnitPlan, part: keyof typeof PARTS): string => {
  const [first, last] = PARTS[part].map((id) => STEPS.indexOf(id));
  return steps
    .filter(({ id }) => STEPS.indexOf(id) >= (first ?? 0) && STEPS.indexOf(id) <= (last ?? 0))
    .map(short)
    .join(', ');
};

interface Judged {
  readonly cement: CementClass;
  readonly substrate: Substrate;
  /** Null where the combination is refused. */
  readonly plan: UnitPlan | null;
  readonly text: string;
}

const clockText = ({ cement }: UnitPlan): string => {
  if (cement.class === 'adhesive-resin-light') return `seat by ${cement.workingS}, light sets it`;
  return `seat by ${cement.workingS}, sets ${cement.settingS}${cement.waitForSet ? ', waited for' : ', lit'}`;
};

const judge = (wanted: Wanted): Judged => {
  const { cement, substrate } = wanted;
  const checked = caseOf(wanted);
  if (!checked.ok) {
    const text = checked.problems.map(({ field, message }) =>
      field.endsWith('.cement') ? message : `${field.replace('units[0].', '')}: ${message}`,
    );
    return { cement, substrate, plan: null, text: text.join(' / ') };
  }
  const [plan] = makePlan(checked.case).units;
  const [unit] = checked.case.units;
  if (plan === undefined || unit === undefined) return { cement, substrate, plan: null, text: '' };
  const size = `${unit.tooth}, ${unit.thicknessMm} mm`;
  const text = `(${size}; ${clockText(plan)}) inside: ${partText(plan, 'inside')} | then: ${partText(plan, 'after')}`;
  return { cement, substrate, plan, text };
};

/** Judgements with the same words together: the substrates they are for, and the words. */
const grouped = (judged: readonly Judged[]): (readonly [names: string, text: string])[] => {
  const texts = new Map<string, Judged[]>();
  for (const each of judged) texts.set(each.text, [...(texts.get(each.text) ?? []), each]);
  return [...texts].map(
    ([text, same]) => [same.map(({ substrate }) => substrate).join(', '), text] as const,
  );
};

/** Which cements are left where the form does not hold. */
const failingText = (material: Material, kind: UnitKind, seats: readonly Substrate[]): string => {
  const left = CEMENT_CLASSES.filter((cement) =>
    seats.some((substrate) => caseOf({ material, kind, substrate, cement, form: false }).ok),
  );
  return wrapped(
    `form fails (2.5 mm high, 20 degrees, 10 mm wide): ${left.length === 0 ? 'no cement' : left.join(', ')}`,
    '    ',
    '        ',
  );
};

const FULL: readonly UnitKind[] = ['crown', 'bridge', 'implant-crown'];

/** What the kind may sit on: that hangs on neither material nor cement. */
const seatsOf = (kind: UnitKind): Substrate[] =>
  SUBSTRATES.filter((substrate) => {
    const wanted = { kind, substrate, cement: 'adhesive-resin-dual' } as const;
    const checked = caseOf({ material: 'zirconia-3y', ...wanted });
    return checked.ok || !checked.problems.some(({ field }) => field.endsWith('.substrate'));
  });

const kindText = (material: Material, kind: UnitKind): string => {
  const against = MATERIAL_TABLE[material].notFor[kind];
  const heading = `  ${KIND_NAME[kind].toUpperCase()}`;
  if (against !== undefined) return wrapped(`none: ${against}`, `${heading}: `, '    ');
  const seats = seatsOf(kind);
  const judged = CEMENT_CLASSES.map((cement) =>
    seats.map((substrate) => judge({ material, kind, substrate, cement })),
  );
  const mouth = judged
    .flat()
    .find(({ plan, substrate }) => plan !== null && substrate !== 'titanium-base');
  return [
    heading,
    ...(mouth?.plan
      ? [wrapped(`before: ${partText(mouth.plan, 'before')}`, '    ', '        ')]
      : []),
    ...judged.flatMap((row) =>
      grouped(row).map(([names, text]) => {
        const [first] = row;
        const yes = row.some((each) => each.text === text && each.plan !== null);
        return wrapped(
          `${first?.cement ?? ''} on ${names} ${yes ? text : `refused: ${text}`}`,
          yes ? '    yes ' : '    no  ',
          '        ',
        );
      }),
    ),
    ...(FULL.includes(kind) ? [failingText(material, kind, seats)] : []),
  ].join('\n');
};

/** The tooth or abutment side of every substrate under every cement that may go on it. */
const toothText = (): string => {
  const lines = SUBSTRATES.flatMap((substrate) => {
    const kinds = UNIT_KINDS.filter((each) => seatsOf(each).includes(substrate));
    // A light-cure resin goes under a thin glass-ceramic only.
    const rows = CEMENT_CLASSES.flatMap((cement) => {
      const material = cement === 'adhesive-resin-light' ? 'lithium-disilicate' : 'zirconia-3y';
      const judged = kinds.map((kind) => judge({ material, kind, substrate, cement }));
      return judged.find(({ plan }) => plan !== null) ?? [];
    });
    const routes = new Map<string, string[]>();
    for (const { plan, cement } of rows) {
      if (plan === null) continue;
      const route = partText(plan, 'tooth');
      routes.set(route, [...(routes.get(route) ?? []), cement]);
    }
    const { name, note } = SUBSTRATE_TABLE[substrate];
    return [
      `  ${name.toUpperCase()} (${substrate})`,
      ...[...routes].map(([route, cements]) =>
        wrapped(`${cements.join(', ')}: ${route}`, '    ', '        '),
      ),
      ...(note === null ? [] : [wrapped(note, '    note ', '        ')]),
    ];
  });
  return ['TOOTH AND ABUTMENT SIDE', ...lines].join('\n');
};

const LEGEND = [
  'Every combination of material, kind of unit, what it sits on and cement class, on an invented',
  'shelf that holds everything, at 23 degrees C with a light of 1200 mW/cm2. First the tooth side,',
  'which hangs on substrate and cement; then, material by material, the inside and what comes after.',
  '"yes": tooth and thickness planned with, the two clocks in seconds from the mix, and the steps with',
  'the seconds aimed at; "good for": seconds until what a step left is stale. "no": the reason, and',
  'what is allowed. Windows are least / aim / most. The same for all and left out: case check,',
  'history, equipment, disinfection, photo, airway before; instructions and lots after.',
];

/** Every combination's plan in compact form, for a specialist to read. */
export function* allText(): Generator<string> {
  yield `${LEGEND.join('\n')}\n\n${toothText()}\n`;
  for (const material of MATERIALS) {
    yield `\n${materialText(material)}\n`;
    for (const kind of UNIT_KINDS) yield `${kindText(material, kind)}\n`;
  }
}
