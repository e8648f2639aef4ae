/**
 * Where the weights of the confidence come from: `npx tsx tests/bench/confidence.ts [--every 3]`.
 * Sounds that are commands and sounds that are none, in the grammar of their moment, each looked at
 * narrowly and widely; a logistic regression over the evidence, by Newton's steps with a small ridge,
 * fitted on half of the voices and looked at on the others. Prints the weights and, at several
 * thresholds, what of it is taken, asked back and let through.
 */
import { existsSync } from 'node:fs';
import { appendFile, mkdir, readFile, rm } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { readWav } from '../../assistant/cli/wav.ts';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { decode, mostTokens, NARROW, type Search, WIDE } from '../../assistant/ear/neural/beam.ts';
import { evidence, unsaid } from '../../assistant/ear/neural/confidence.ts';
import { Network } from '../../assistant/ear/neural/network.ts';
import { nearSilence, prepare, QUIET_SECONDS } from '../../assistant/ear/neural/prepare.ts';
import { Prior } from '../../assistant/ear/neural/prior.ts';
import { TokenWalk } from '../../assistant/ear/neural/token-walk.ts';
import { loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { type Pcm, SAMPLE_RATE } from '../../assistant/ear/port.ts';
import { parseJsgf } from '../../prompts/grammar/index.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { VOICES, type VoiceName } from '../speech/index.ts';
import { FITTED } from './fitted-voices.ts';
import { type Look, report, type Row } from './confidence-fit.ts';
import { mix } from './mix.ts';
import { isRight, readOrders } from './orders.ts';
import { noiseInRoom, type Room, saidInRoom, stateLines } from './surgery.ts';

const { values } = parseArgs({
  options: {
    every: { type: 'string', default: '3' },
    orders: { type: 'string', default: '4' },
    keep: { type: 'boolean', default: false },
  },
});
const OUT = fileURLToPath(new URL('../.out/', import.meta.url));
const SHARED =
  process.env['SEATCALL_VOICE'] ?? fileURLToPath(new URL('../../../shared/voice', import.meta.url));

const ROOMS: readonly Room[] = [
  { noise: null, decibels: 0 },
  { noise: 'suction', decibels: 20 },
  { noise: 'handpiece', decibels: 10 },
  { noise: 'suction', decibels: 10 },
  { noise: 'handpiece', decibels: 5 },
  { noise: 'suction', decibels: 5 },
];
/** Invented talk, none of it for Seatcall, some of it about the same things. */
const CHATTER = [
  'open a little wider for me please',
  'is it going to hurt when you clean it',
  'we had the same crown last week',
  'pass me the mirror and the cotton rolls',
  'the cement is in the second drawer',
  'tell her to bite down gently',
  'lantern festival was lovely this year',
  'did the laboratory send the shade',
  'you can rinse in a minute',
  'that is it for today thank you',
  'my tooth is cold when I drink',
  'the light in here is very bright',
];
/** One sound away from a phrase. */
const NEAR = [
  'tooth itch on',
  'cleaner own',
  'crown doubt',
  'seating noun',
  'pond on',
  'so lane on',
  'mixing cow',
  'next stop',
  'dam own',
  'it sits',
];

/** Sounds without a word in them. */
const NOISES = 40;

const weights = await loadNeuralWeights();
const network = await Network.load(weights);
const prior = new Prior(network, await network.encode(nearSilence(1)));
const { callSign, stopPhrases } = ATTENTION;

async function look(
  pcm: Pcm,
  walk: TokenWalk,
  search: Search,
  right: (phrase: string) => boolean,
): Promise<Look> {
  const began = process.cpuUsage();
  const sound = prepare(pcm);
  const seconds = sound.length / SAMPLE_RATE - 2 * QUIET_SECONDS;
  const begun = await network.begin(await network.encode(sound));
  const steps = mostTokens(seconds);
  const decoded = await decode(network, begun, walk, prior, steps, search);
  const { user, system } = process.cpuUsage(began);
  const [best] = decoded.paths;
  const ms = (user + system) / 1000;
  const { spoken } = decoded.free;
  if (best === undefined || best.words.length === 0)
    return { evidence: null, isRight: false, ms, spoken, unsaid: 1, found: -1e6 };
  return {
    evidence: evidence(decoded, best),
    isRight: right(best.words.join(' ')),
    ms,
    spoken,
    unsaid: unsaid(best.words, seconds),
    found: best.score,
  };
}

async function looks(
  pcm: Pcm,
  walk: TokenWalk,
  right: (phrase: string) => boolean,
): Promise<Row['looks']> {
  return {
    narrow: await look(pcm, walk, NARROW, right),
    wide: await look(pcm, walk, WIDE, right),
  };
}

const none = (): boolean => false;
const meaning = (phrase: string): string =>
  JSON.stringify(commandFor(phrase.replace(new RegExp(`^${callSign} ?`), '')));

async function* rows(): AsyncGenerator<Row> {
  const lines = await stateLines();
  const voices = Object.keys(VOICES).filter((name): name is VoiceName => name in VOICES);
  const voiceAt = (index: number): VoiceName => voices[index % voices.length] ?? 'americanMan';
  const walkOf = (phrases: string, mode: 'open' | 'addressed'): TokenWalk =>
    new TokenWalk(parseJsgf(heldGrammar(phrases, mode, callSign, stopPhrases)));
  let count = 0;
  for (let index = 0; index < lines.length; index += Number(values.every)) {
    const line = lines[index];
    if (line === undefined) continue;
    for (let part = 0; part < 3; part++) {
      const voice = voiceAt(count);
      const room = ROOMS[(count + Math.floor(count / voices.length)) % ROOMS.length] ?? {
        noise: null,
        decibels: 0,
      };
      const signed = count % 4 !== 3;
      const text = signed ? `${callSign}, ${line.words}` : line.words;
      const pcm = await saidInRoom(text, voice, room, count + 1);
      count += 1;
      const right = (phrase: string): boolean => meaning(phrase) === meaning(line.words);
      yield {
        what: 'command',
        room: `${room.noise ?? 'quiet'} ${room.decibels}`,
        fitted: FITTED.includes(voice),
        words: text,
        looks: await looks(pcm, walkOf(line.phrases, 'open'), right),
      };
    }
  }
  const others = [
    ...CHATTER.map((text) => ['chatter', text] as const),
    ...NEAR.map((text) => ['near', `${callSign}, ${text}`] as const),
    ...NEAR.map((text) => ['near', text] as const),
    ...voices.map(() => ['sign', callSign] as const),
  ];
  for (const [index, [what, text]] of others.entries()) {
    for (const part of [0, 1]) {
      const voice = voiceAt(index * 5 + part * 7);
      const room = ROOMS[(index + part * 3) % ROOMS.length] ?? { noise: null, decibels: 0 };
      const line = lines[(index * 17 + part * 31) % lines.length];
      const pcm = await saidInRoom(text, voice, room, index + 500);
      const right = what === 'sign' ? (phrase: string) => phrase === callSign : none;
      yield {
        what,
        room: `${room.noise ?? 'quiet'} ${room.decibels}`,
        fitted: FITTED.includes(voice),
        words: text,
        looks: await looks(pcm, walkOf(line?.phrases ?? '', 'open'), right),
      };
    }
  }
  // What voice activity takes for speech and is none.
  for (let index = 0; index < NOISES; index++) {
    const room = ROOMS[1 + (index % (ROOMS.length - 1))] ?? ROOMS[1];
    const line = lines[(index * 11) % lines.length];
    if (room?.noise == null) continue;
    yield {
      what: 'noise',
      room: `${room.noise} ${room.decibels}`,
      fitted: index % 2 === 0,
      words: '',
      looks: await looks(
        noiseInRoom(0.6 + 0.2 * (index % 9), room, index + 900),
        walkOf(line?.phrases ?? '', 'open'),
        none,
      ),
    };
  }
  if (!existsSync(`${SHARED}/orders.jsgf`)) return;
  const own = new TokenWalk(parseJsgf(await readFile(`${SHARED}/orders.jsgf`, 'utf8')));
  const noise = readWav(await readFile(`${SHARED}/noise-kitchen.wav`));
  const orders = await readOrders(SHARED, Number(values.orders));
  for (const [index, { pcm, slots, file }] of orders.entries()) {
    const level = [30, 9, 6][index % 3] ?? 30;
    const line = lines[(index * 13) % lines.length];
    const fitted = index % 2 === 0;
    const right = (phrase: string): boolean => isRight(phrase, slots);
    const noisy = mix(pcm, noise, level, index + 1);
    const room = `kitchen ${level}`;
    yield { what: 'order', room, fitted, words: file, looks: await looks(noisy, own, right) };
    const walk = walkOf(line?.phrases ?? '', 'open');
    yield {
      what: 'order as chatter',
      room,
      fitted,
      words: file,
      looks: await looks(pcm, walk, none),
    };
  }
}

const file = `${OUT}confidence.jsonl`;
await mkdir(OUT, { recursive: true });
if (!values.keep || !existsSync(file)) {
  await rm(file, { force: true });
  for await (const row of rows()) await appendFile(file, `${JSON.stringify(row)}\n`);
}
const lines = (await readFile(file, 'utf8')).trim().split('\n');
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- written above, by this program
const found = lines.map((line) => JSON.parse(line) as Row);
report(found, (text) => process.stdout.write(text));
