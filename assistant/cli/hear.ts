/** `hear`: what the recogniser hears in sound files. */
import { readFile } from 'node:fs/promises';
import { JsgfError } from '../../prompts/grammar/index.ts';
import { wholeGrammar } from '../../prompts/phrases/index.ts';
import { createNeuralRecogniser } from '../ear/neural/index.ts';
import { loadNeuralWeights } from '../ear/neural/weights-node.ts';
import { loadSpeechWeights } from '../ear/vad/weights-node.ts';
import { hearClip } from './hear-clip.ts';
import { addressed, afterCallSign } from './hear-grammar.ts';
import { HEAR_USAGE, type HearOptions, readHearOptions, WrongUse } from './hear-options.ts';
import { readWav } from './wav.ts';

const because = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

async function grammarText(file: string | null): Promise<string> {
  if (file === null) return wholeGrammar();
  return readFile(file, 'utf8').catch((error: unknown) => {
    throw new WrongUse(`cannot read --grammar ${file}: ${because(error)}`);
  });
}

function held(text: string, { grammar, callSign }: HearOptions): string {
  try {
    return addressed(text, callSign);
  } catch (error) {
    if (error instanceof JsgfError) {
      throw new WrongUse(`${grammar ?? 'phrases'}: ${error.message}`, { cause: error });
    }
    throw error;
  }
}

/** Hears every clip; gives 1 when one of them could not be read. */
async function hear(options: HearOptions): Promise<0 | 1> {
  const grammar = held(await grammarText(options.grammar), options);
  const recogniser = await createNeuralRecogniser(await loadNeuralWeights());
  await recogniser.load(grammar);
  let code: 0 | 1 = 0;
  for (const clip of options.clips) {
    try {
      const pcm = readWav(await readFile(clip));
      const start = performance.now();
      const heard = await hearClip(recogniser, pcm, loadSpeechWeights);
      const ms = Math.round(performance.now() - start);
      const phrase = heard === null ? null : afterCallSign(heard.phrase, options.callSign);
      const score = heard === null ? null : Number(heard.score.toFixed(3));
      const line = options.json
        ? JSON.stringify({ clip, phrase, score, ms })
        : `${clip}: ${phrase ?? '(nothing)'}${score === null ? '' : ` ${score}`} in ${ms} ms`;
      process.stdout.write(`${line}\n`);
    } catch (error) {
      code = 1;
      process.stderr.write(`hear: ${clip}: ${because(error)}\n`);
      const lost = { clip, phrase: null, score: null, ms: null, error: because(error) };
      if (options.json) process.stdout.write(`${JSON.stringify(lost)}\n`);
    }
  }
  await recogniser.close();
  return code;
}

/** Runs the command; gives the exit code. */
async function run(args: readonly string[]): Promise<0 | 1> {
  const options = readHearOptions(args);
  if (options.action === 'hear') return hear(options);
  process.stdout.write(options.action === 'help' ? HEAR_USAGE : wholeGrammar());
  return 0;
}

try {
  process.exitCode = await run(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof WrongUse)) throw error;
  process.stderr.write(`hear: ${error.message}\n${HEAR_USAGE}`);
  process.exitCode = 2;
}
