/** `rehearse`: the whole core run over a sound file, on the file's own clock. */
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import type { CaseFile } from '../../machines/contract/index.ts';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { renderClips } from '../../prompts/render/clips.ts';
import { ATTENTION } from '../ear/attention.ts';
import { readCallSign } from '../ear/held-grammar.ts';
import { createNeuralRecogniser } from '../ear/neural/index.ts';
import { loadNeuralWeights } from '../ear/neural/weights-node.ts';
import { loadSpeechWeights } from '../ear/vad/weights-node.ts';
import { exportCase } from '../store/index.ts';
import { MemoryStore } from '../store/memory.ts';
import { clipsOf } from '../voice/clips.ts';
import { WrongUse } from './hear-options.ts';
import { type Happened, rehearseCase } from './rehearsal.ts';
import { readWav, WavError } from './wav.ts';

const USAGE = `npm run --silent rehearse -- --case CASE.json --sound TALK.wav --record OUT.jsonl [options]
  --case FILE         the case to open
  --sound FILE        what is said; any WAV file
  --record FILE       where the record goes
  --json              one JSON line for each thing that happened, in time order
  --call-sign WORD    the word that addresses Seatcall ("${ATTENTION.callSign}" unless given)
  --no-call-sign      every phrase counts as addressed
Exit: 0 done, 1 a file could not be read or written, 2 the command or the case is wrong.
`;

interface Options {
  readonly case: string;
  readonly sound: string;
  readonly record: string;
  readonly json: boolean;
  readonly callSign: string | null;
}

const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: {
        case: { type: 'string' },
        sound: { type: 'string' },
        record: { type: 'string' },
        json: { type: 'boolean', default: false },
        'call-sign': { type: 'string' },
        'no-call-sign': { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    throw new WrongUse(because(error));
  }
}

/** @throws WrongUse naming what is missing. */
function readOptions(args: readonly string[]): Options {
  const values = parsed(args);
  const { case: caseFile, sound, record, json } = values;
  if (caseFile === undefined) throw new WrongUse('--case names no file');
  if (sound === undefined) throw new WrongUse('--sound names no file');
  if (record === undefined) throw new WrongUse('--record names no file');
  const sign = values['call-sign'];
  if (sign !== undefined && values['no-call-sign']) {
    throw new WrongUse('--call-sign and --no-call-sign exclude each other');
  }
  if (values['no-call-sign']) return { case: caseFile, sound, record, json, callSign: null };
  try {
    const callSign = readCallSign(sign ?? ATTENTION.callSign);
    return { case: caseFile, sound, record, json, callSign };
  } catch (error) {
    throw new WrongUse(`--call-sign: ${because(error)}`);
  }
}

/** @throws WrongUse with every problem of the case. */
async function readCase(file: string): Promise<CaseFile> {
  const text = await readFile(file, 'utf8').catch((error: unknown) => {
    throw new WrongUse(`cannot read --case ${file}: ${because(error)}`);
  });
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch (error) {
    throw new WrongUse(`${file} is not JSON: ${because(error)}`);
  }
  const checked = checkCase(given);
  if (checked.ok) return checked.case;
  const lines = checked.problems.map(({ field, message }) => `  ${field}: ${message}`);
  throw new WrongUse(`${file} has problems:\n${lines.join('\n')}`);
}

const seconds = (ms: number): string => (ms / 1000).toFixed(1).padStart(7);

function plain(happened: Happened): string {
  if (happened.what === 'called') return `${seconds(happened.at)}  calls   ${happened.text}`;
  const { phrase, score, became, why } = happened;
  const words = phrase === null ? '(nothing)' : `"${phrase}" ${score?.toFixed(2) ?? ''}`;
  return `${seconds(happened.at)}  hears   ${words}: ${became}${why === null ? '' : `, ${why}`}`;
}

async function rehearse(options: Options): Promise<void> {
  const caseFile = await readCase(options.case);
  const pcm = readWav(await readFile(options.sound));
  const folder = fileURLToPath(new URL('../../.cache/clips', import.meta.url));
  const { manifest } = await renderClips(allPieces(), folder);
  const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
  const store = new MemoryStore();
  const tell = (happened: Happened): void => {
    process.stdout.write(`${options.json ? JSON.stringify(happened) : plain(happened)}\n`);
  };
  const startWall = Date.now();
  const caseId = await rehearseCase(caseFile, makePlan(caseFile), pcm, {
    recogniser,
    weights: await loadSpeechWeights(),
    clips: clipsOf(manifest, ''),
    store,
    callSign: options.callSign,
    startWall,
    tell,
  });
  await recogniser.close();
  const wall = new Date(startWall + (pcm.length / 16_000) * 1000).toISOString();
  await writeFile(options.record, (await exportCase(store, caseId, wall)).text);
}

try {
  await rehearse(readOptions(process.argv.slice(2)));
} catch (error) {
  if (error instanceof WrongUse) {
    process.stderr.write(`rehearse: ${error.message}\n${USAGE}`);
    process.exitCode = 2;
  } else if (error instanceof WavError || (error instanceof Error && 'code' in error)) {
    process.stderr.write(`rehearse: ${because(error)}\n`);
    process.exitCode = 1;
  } else throw error;
}
