/**
 * How well and how fast the recogniser hears:
 * `npm run bench:ear -- [--every N] [--levels 24,6] [--round 1] [--only orders,states,turns,signs,phrases]`.
 * Human orders (SEATCALL_VOICE, else ../shared/voice) against their own grammar, clean and in
 * kitchen noise; the same orders against Seatcall's phrases, where all that is heard is false;
 * Seatcall's phrases in synthesised voices, each in the grammar of its moment (`states`), in that of a
 * moment at which they mean nothing (`turns`: what is taken then is wrong) and all at once; words of
 * the dictionary as call signs before such a phrase (`signs`). Prints a table with what is asked of
 * each row and writes tests/.out/ear.json.
 */
import { existsSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { addressed } from '../../assistant/cli/hear-grammar.ts';
import { readWav } from '../../assistant/cli/wav.ts';
import { createNeuralRecogniser } from '../../assistant/ear/neural/index.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { type Pcm, type Recogniser, SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { commandFor, PHRASES, wholeGrammar } from '../../prompts/phrases/index.ts';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { speak, type VoiceName, VOICES } from '../speech/index.ts';
import { listened, type Moment } from './listened.ts';
import { mix } from './mix.ts';
import { isRight, readOrders } from './orders.ts';
import { SIGNS } from './signs.ts';
import { outOfTurn, type Room, saidInRoom, type StateLine, stateLines } from './surgery.ts';

const { values } = parseArgs({
  options: {
    every: { type: 'string', default: '1' },
    levels: { type: 'string', default: '24,21,18,15,12,9,6' },
    phrases: { type: 'string', default: '9' },
    states: { type: 'string', default: '4' },
    only: { type: 'string', default: 'orders,states,turns,signs,phrases' },
    threads: { type: 'string', default: '1' },
    round: { type: 'string', default: '0' },
  },
});
const voice =
  process.env['SEATCALL_VOICE'] ?? fileURLToPath(new URL('../../../shared/voice', import.meta.url));
const OUT = fileURLToPath(new URL('../.out/', import.meta.url));

/** Voices that no weight of the confidence was fitted on. */
const UNFITTED = [
  'americanMan',
  'britishMan',
  'receivedWoman',
  'secondAmericanMan',
  'scottishWoman',
] as const satisfies VoiceName[];

interface Line {
  readonly what: string;
  readonly level: string;
  readonly right: number;
  readonly wrong: number;
  readonly nothing: number;
  /** Of `nothing`: what would be asked back. */
  readonly asked: number;
  readonly ms50: number;
  readonly ms95: number;
  /** Processor time, which other work on the machine does not stretch. */
  readonly cpu50: number;
  readonly cpu95: number;
}

interface Sample {
  readonly pcm: Pcm;
  /** Where it is said; left out: it is held to what is loaded, and nothing else is asked. */
  readonly moment?: Moment;
  readonly isRight: (phrase: string) => boolean;
}

const quantile = (sorted: readonly number[], part: number): number =>
  Math.round(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0);

async function measure(
  recogniser: Recogniser,
  what: string,
  level: string,
  samples: readonly Sample[],
): Promise<Line> {
  let [right, wrong, nothing, asked] = [0, 0, 0, 0];
  const [ms, cpu]: [number[], number[]] = [[], []];
  for (const sample of samples) {
    const [wall, used] = [performance.now(), process.cpuUsage()];
    const heard = sample.moment
      ? await listened(recogniser, sample.pcm, sample.moment)
      : await recogniser.hear(sample.pcm);
    const { user, system } = process.cpuUsage(used);
    ms.push(performance.now() - wall);
    cpu.push((user + system) / 1_000);
    if (heard?.sure === false) asked++;
    if (heard === null || !heard.sure) nothing++;
    else if (sample.isRight(heard.phrase)) right++;
    else wrong++;
  }
  const [byMs, byCpu] = [ms.toSorted((a, b) => a - b), cpu.toSorted((a, b) => a - b)];
  const line = {
    what,
    level,
    right,
    wrong,
    nothing,
    asked,
    ms50: quantile(byMs, 0.5),
    ms95: quantile(byMs, 0.95),
    cpu50: quantile(byCpu, 0.5),
    cpu95: quantile(byCpu, 0.95),
  };
  process.stdout.write(row(line));
  return line;
}

const row = (line: Record<keyof Line, string | number>): string =>
  `${String(line.what).padEnd(50)}${String(line.level).padEnd(8)}${[
    line.right,
    line.wrong,
    line.nothing,
    line.asked,
    line.ms50,
    line.ms95,
    line.cpu50,
    line.cpu95,
  ]
    .map((value) => String(value).padStart(8))
    .join('')}\n`;

const none = (): boolean => false;
const atLevel = (pcm: Pcm, noise: Pcm, level: string, seed: number): Pcm =>
  level === 'clean' ? pcm : mix(pcm, noise, Number(level), seed);

async function orders(recogniser: Recogniser, noise: Pcm): Promise<Line[]> {
  const all = await readOrders(voice, Number(values.every));
  const lines: Line[] = [];
  await recogniser.load(await readFile(`${voice}/orders.jsgf`, 'utf8'));
  for (const level of ['clean', ...values.levels.split(',')]) {
    const samples = all.map(({ pcm, slots }, seed) => ({
      pcm: atLevel(pcm, noise, level, seed + 1),
      isRight: (phrase: string) => isRight(phrase, slots),
    }));
    lines.push(await measure(recogniser, 'human orders, own grammar', level, samples));
  }
  const seconds = all.reduce((sum, { pcm }) => sum + pcm.length, 0) / SAMPLE_RATE;
  for (const callSign of [null, 'lantern']) {
    await recogniser.load(addressed(wholeGrammar(), callSign));
    const sign = callSign === null ? 'no call sign' : 'call sign';
    const samples = all.map(({ pcm }) => ({ pcm, isRight: none }));
    const what = `false commands, ${sign}, ${Math.round(seconds)} s`;
    lines.push(await measure(recogniser, what, 'clean', samples));
  }
  return lines;
}

/** Whether a phrase means what a line does. */
const means =
  ({ words }: StateLine) =>
  (phrase: string): boolean =>
    JSON.stringify(commandFor(phrase)) === JSON.stringify(commandFor(words));

/** What is asked, in hundredths, by decibels of suction or handpiece; 0 stands for neither. */
const ASKED: readonly (readonly [decibels: number, percent: number])[] = [
  [0, 99],
  [20, 98],
  [10, 97],
  [5, 92],
];

/** Lines of both appointments after the call sign, masked, in all voices by turns. */
async function states(recogniser: Recogniser): Promise<Line[]> {
  const all = (await stateLines()).filter((_, index) => index % Number(values.states) === 0);
  const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
  const { callSign } = ATTENTION;
  const lines: Line[] = [];
  for (const [decibels, percent] of ASKED) {
    for (const noise of decibels === 0 ? [null] : (['suction', 'handpiece'] as const)) {
      const room: Room = { noise, decibels };
      const samples = await Promise.all(
        all.map(async (line, index) => ({
          pcm: await saidInRoom(
            `${callSign}, ${line.words}`,
            voices[(index * 5) % voices.length] ?? 'americanMan',
            room,
            index + 1,
          ),
          moment: { phrases: line.phrases, callSign, isAwake: true },
          isRight: means(line),
        })),
      );
      const what = `of its moment, ${noise ?? 'quiet'}, asked ${percent} %`;
      lines.push(
        await measure(recogniser, what, noise === null ? 'clean' : `${decibels}`, samples),
      );
    }
  }
  return lines;
}

/** Words of another moment after the call sign, and without one: whatever is taken is wrong. */
async function turns(recogniser: Recogniser): Promise<Line[]> {
  const all = await stateLines();
  const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
  const { callSign } = ATTENTION;
  const rooms: readonly Room[] = [
    { noise: null, decibels: 0 },
    { noise: 'suction', decibels: 10 },
    { noise: 'handpiece', decibels: 5 },
  ];
  const lines: Line[] = [];
  for (const room of rooms) {
    const samples: Sample[] = [];
    // One after another: the same words in the same voice are made once.
    for (const [index, line] of all.entries()) {
      const words = outOfTurn(line, all, index * 29 + 11);
      const signed = index % 2 === 0;
      const text = signed ? `${callSign}, ${words}` : words;
      const speaker = voices[(index * 5) % voices.length] ?? 'americanMan';
      samples.push({
        pcm: await saidInRoom(text, speaker, room, index + 1),
        moment: { phrases: line.phrases, callSign, isAwake: !signed },
        isRight: none,
      });
    }
    const level = room.noise === null ? 'clean' : `${room.decibels}`;
    lines.push(await measure(recogniser, `out of turn, ${room.noise ?? 'quiet'}`, level, samples));
  }
  return lines;
}

/** The call sign is asked to be found at this level, in so many of a hundred. */
const SIGN_ASKED = { decibels: 10, percent: 97 };

/**
 * Each word before a line of the appointments, in the grammar of its moment, while it is needed
 * (asleep) and while it may be left out; each round in another voice and before another line: right when
 * the line, or the word alone, is taken.
 */
async function signs(recogniser: Recogniser): Promise<Line[]> {
  const round = Number(values.round);
  const all = await stateLines();
  const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
  const lines: Line[] = [];
  for (const isAwake of [false, true]) {
    for (const noise of [null, 'suction', 'handpiece'] as const) {
      const room: Room = { noise, decibels: SIGN_ASKED.decibels };
      const samples = await Promise.all(
        SIGNS.map(async (sign, index) => {
          const line = all[(index * 7 + round * 11) % all.length];
          if (line === undefined) throw new Error('the appointments have no lines');
          const speaker = voices[(index * 5 + round) % voices.length] ?? 'americanMan';
          return {
            pcm: await saidInRoom(`${sign}, ${line.words}`, speaker, room, index + 1),
            moment: { phrases: line.phrases, callSign: sign, isAwake },
            isRight: (phrase: string) => phrase === sign || means(line)(phrase),
          };
        }),
      );
      const state = isAwake ? 'may be left out' : 'needed';
      const what = `call sign ${state}, ${noise ?? 'quiet'}, asked ${SIGN_ASKED.percent} %`;
      const level = noise === null ? 'clean' : `${SIGN_ASKED.decibels}`;
      lines.push(await measure(recogniser, what, level, samples));
    }
  }
  return lines;
}

async function phrases(recogniser: Recogniser, noise: Pcm): Promise<Line[]> {
  const texts = PHRASES.flatMap(({ texts: ways }) => ways).filter(
    (text) => text.split(' ').length <= 5,
  );
  const lines: Line[] = [];
  for (const callSign of [null, 'lantern']) {
    await recogniser.load(addressed(wholeGrammar(), callSign));
    for (const level of ['clean', '20', '10']) {
      const samples: Sample[] = [];
      for (let at = 0; at < texts.length; at += Number(values.phrases)) {
        const text = [...(callSign === null ? [] : [callSign]), texts[at] ?? ''].join(' ');
        const said = await speak(text, UNFITTED[at % UNFITTED.length] ?? 'americanMan');
        const pcm = new Float32Array(said.length + 0.4 * SAMPLE_RATE);
        pcm.set(said, 0.2 * SAMPLE_RATE);
        samples.push({
          pcm: atLevel(pcm, noise, level, at + 1),
          isRight: (phrase) => phrase === text,
        });
      }
      const sign = callSign === null ? 'no call sign' : 'call sign';
      lines.push(await measure(recogniser, `all phrases at once, ${sign}`, level, samples));
    }
  }
  return lines;
}

if (!existsSync(`${voice}/orders.jsgf`)) {
  throw new Error(`no recordings in ${voice}; set SEATCALL_VOICE to where they are`);
}
const weights = await loadNeuralWeights();
const recogniser = await createNeuralRecogniser({ ...weights, threads: Number(values.threads) });
const noise = readWav(await readFile(`${voice}/noise-kitchen.wav`));
process.stdout.write(
  row({
    what: '',
    level: 'dB',
    right: 'right',
    wrong: 'wrong',
    nothing: 'nothing',
    asked: 'asked',
    ms50: 'ms p50',
    ms95: 'ms p95',
    cpu50: 'cpu p50',
    cpu95: 'cpu p95',
  }),
);
const only = values.only.split(',');
const lines = [
  ...(only.includes('orders') ? await orders(recogniser, noise) : []),
  ...(only.includes('states') ? await states(recogniser) : []),
  ...(only.includes('turns') ? await turns(recogniser) : []),
  ...(only.includes('signs') ? await signs(recogniser) : []),
  ...(only.includes('phrases') ? await phrases(recogniser, noise) : []),
];
await recogniser.close();
await mkdir(OUT, { recursive: true });
await writeFile(`${OUT}ear.json`, `${JSON.stringify({ options: values, lines }, null, 2)}\n`);
process.stdout.write(`${OUT}ear.json\n`);
