/**
 * Speech to fit the encoder to rooms with: `npx tsx tests/bench/fit/speech.ts FOLDER`. Writes WAV
 * files at 16 kHz to FOLDER/synthetic: Seatcall's phrases (with the call sign or a word in its
 * place), its calls and lines of its own documentation, in the voices that the benchmarks call
 * fitted and in voices they do not have; and every second human order, three times. To
 * FOLDER/natural every second human order, six times; docs/hearing.md says what else goes there.
 * The words in the call sign's place are of Debian's list (wamerican-small), none of them one that
 * the benchmarks measure with.
 */
import { createHash } from 'node:crypto';
import tokenizer from 'llama-tokenizer-js';
import { existsSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { ATTENTION } from '../../../assistant/ear/attention.ts';
import { encodeWav } from '../../../prompts/render/wav.ts';
import { allPieces } from '../../../prompts/catalogue/index.ts';
import { PHRASES } from '../../../prompts/phrases/index.ts';
import { chance } from '../../speech/noise.ts';
import { makeSpeech } from '../../speech/speech-maker.ts';
import { speak } from '../../speech/index.ts';
import { VOICES, type VoiceName, type VoiceSpec } from '../../speech/voices.ts';
import { CHECKED, FITTED } from '../fitted-voices.ts';
import { readOrders } from '../orders.ts';
import { SIGNS } from '../signs.ts';
import { diphoneSpeech } from './diphone.ts';

const RATE = 16_000;
const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error('name the folder to write to');
const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const SHARED = process.env['SEATCALL_VOICE'] ?? `${ROOT}../shared/voice`;
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'docs/hearing.md', 'docs/review.md'];
/** The one of the fitted voices that is cut from recordings, and its share of the lines. */
const CUT_VOICE = 'americanWoman' satisfies VoiceName;
const CUT_SHARE = 0.3;
/** The share of another voice cut from recordings, which the benchmarks do not have. */
const DIPHONE_SHARE = 0.2;
/** How often each phrase is said after the call sign, and after other words: a practice may pick any. */
const SIGN_TIMES = 2;
const WORD_TIMES = 6;
const WORD_LIST = '/usr/share/dict/american-english-small';
const MOST_LETTERS = 70;
const PROSE_LINES = 500;
const ORDERS_TIMES = 6;
const FEW_TIMES = 3;

const next = chance(77);
function pick<T>(from: readonly T[]): T {
  const one = from[Math.floor(next() * from.length)];
  if (one === undefined) throw new Error('there is nothing to pick from');
  return one;
}

const voices: readonly VoiceSpec[] = [
  ...FITTED.filter((name) => name !== CUT_VOICE).map((name) => VOICES[name]),
  ...['en', 'en-us', 'en-029'].flatMap((accent) =>
    ['f1', 'f5', 'm2', 'm4', 'm5', 'm6', 'm8', 'klatt2'].map((variant): VoiceSpec => ({
      engine: 'espeak',
      accent,
      variant,
    })),
  ),
];

const documents = await Promise.all(DOCUMENTS.map((file) => readFile(`${ROOT}${file}`, 'utf8')));
const prose = documents
  .flatMap((text) => text.match(/[A-Za-z' ]{18,60}/gu) ?? [])
  .map((line) => line.trim())
  // The rules of tables are spaces, too.
  .filter(({ length }) => length > 0);
const words = (await readFile(WORD_LIST, 'utf8'))
  .split('\n')
  .filter((word) => /^[a-z]{4,9}$/u.test(word) && !/(?:s|ed|ing|ly)$/u.test(word))
  .filter((word) => !SIGNS.includes(word));
const phrases = [...new Set(PHRASES.flatMap(({ texts }) => texts))];
const lines = [
  ...phrases.flatMap((phrase) => [
    next() < 0.5 ? `${next() < 0.7 ? ATTENTION.callSign : pick(words)}, ${phrase}` : phrase,
    ...Array.from({ length: SIGN_TIMES }, () => `${ATTENTION.callSign}, ${phrase}`),
    ...Array.from({ length: WORD_TIMES }, () => `${pick(words)}, ${phrase}`),
  ]),
  ...allPieces().filter(({ length }) => length < MOST_LETTERS),
  ...Array.from({ length: PROSE_LINES }, () => pick(prose)),
];

/** How the model would write a line: a capital, a stop. */
function tokensOf(text: string): readonly number[] {
  const capital = `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  return tokenizer.encode(/[.?!]$/u.test(capital) ? capital : `${capital}.`, false, true);
}

// What tests/unit/encoder-fit.sound.test.ts listens to.
const { words: said, voice } = CHECKED;
await mkdir(folder, { recursive: true });
await writeFile(`${folder}/check.wav`, encodeWav({ pcm: await speak(said, voice), rate: RATE }));

const written: Record<string, readonly number[]> = {};
await mkdir(`${folder}/synthetic`, { recursive: true });
await mkdir(`${folder}/natural`, { recursive: true });
for (const text of lines) {
  const which = next();
  const spec = which < CUT_SHARE ? VOICES[CUT_VOICE] : pick(voices);
  const diphone = which > 1 - DIPHONE_SHARE;
  const stretch = 0.85 + next() * 0.4;
  const key = createHash('sha256')
    .update(JSON.stringify([text, diphone ? 'diphone' : spec, stretch]))
    .digest('hex');
  const name = `${key.slice(0, 24)}.wav`;
  const file = `${folder}/synthetic/${name}`;
  written[name] = tokensOf(text);
  if (existsSync(file)) continue;
  if (diphone) await diphoneSpeech(text, stretch, file);
  else await makeSpeech({ text, spec, stretch, rate: RATE, file });
}
for (const { file, pcm } of await readOrders(SHARED, 2)) {
  const wav = encodeWav({ pcm, rate: RATE });
  for (let time = 0; time < ORDERS_TIMES; time++) {
    await writeFile(`${folder}/natural/${time}-${file}`, wav);
    if (time < FEW_TIMES) await writeFile(`${folder}/synthetic/${time}-${file}`, wav);
  }
}
await writeFile(`${folder}/synthetic/tokens.json`, JSON.stringify(written));
process.stdout.write(`${lines.length} lines in ${folder}/synthetic\n`);
