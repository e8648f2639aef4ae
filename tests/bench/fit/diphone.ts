/** A voice cut from recordings that no benchmark has: Debian's festival with festvox-kdlpc16k. */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

/**
 * Says `text`, `stretch` times as slowly as usual, into a WAV file at 16 kHz. Rejects when festival
 * or its voice is missing.
 */
export async function diphoneSpeech(text: string, stretch: number, file: string): Promise<void> {
  const voice = '(voice_ked_diphone)';
  const pace = `(Parameter.set 'Duration_Stretch ${stretch.toFixed(3)})`;
  const saying = run('text2wave', ['-F', '16000', '-eval', voice, '-eval', pace, '-o', file]);
  saying.child.stdin?.end(text);
  await saying;
}
