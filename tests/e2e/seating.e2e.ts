/**
 * Whole appointments by voice in real Chromium: the microphone is a sound file, the recogniser,
 * the store and the voice are the app's own, and after the microphone was allowed nobody touches
 * anything.
 */
import { readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { CaseFile } from '../../machines/contract/index.ts';
import { verifySealed } from '../../machines/record/index.ts';
import { checkSignature } from '../../assistant/store/signing.ts';
import { DISILICATE_CASE, disilicateTalk, ZIRCONIA_CASE, zirconiaTalk } from '../chair/seatings.ts';
import { pieceLengths } from '../chair/pieces.ts';
import type { Script } from '../chair/script.ts';
import type { VoiceName } from '../speech/index.ts';
import { Operatory } from './harness.ts';

/** Opens the case from its file, with one click; from there on nobody touches the page. */
async function openCase(operatory: Operatory, caseFile: CaseFile): Promise<void> {
  const { page } = operatory;
  const file = join(tmpdir(), `${caseFile.reference}.json`);
  await writeFile(file, JSON.stringify(caseFile));
  await page.getByLabel('Load a case file').setInputFiles(file);
  await page.getByRole('button', { name: 'Open case' }).click();
  await rm(file);
}

/** The record as the desk exports it, and its verdict. */
async function exported(operatory: Operatory, reference: string) {
  const { page } = operatory;
  await page.getByRole('button', { name: 'Desk' }).click();
  await page.getByText('Kept in this browser').click();
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: `Export the record of ${reference}` }).click();
  const path = await (await coming).path();
  const verdict = await verifySealed(await readFile(path), checkSignature);
  if (!verdict.ok) throw new Error(verdict.message);
  return verdict;
}

/** What each line of the script came to: the commands given by voice, in order. */
function voiced(entries: Awaited<ReturnType<typeof exported>>['entries']): readonly string[] {
  return entries.filter(({ stamp }) => stamp.via === 'voice').map(({ outcome }) => outcome.kind);
}

async function performed(
  caseFile: CaseFile,
  write: typeof zirconiaTalk,
  voice: VoiceName,
): Promise<{
  readonly script: Script;
  readonly said: readonly string[];
  readonly verdict: Awaited<ReturnType<typeof exported>>;
}> {
  const script = await write({
    voice,
    callSign: 'lantern',
    pieceMs: await pieceLengths(),
    patience: 0,
  });
  const operatory = await Operatory.open({ talk: { utterances: script.utterances } });
  try {
    await openCase(operatory, caseFile);
    await operatory.until('step', /^Case closed$/, script.nowMs + 60_000);
    const log = await operatory.log();
    expect(operatory.problems).toEqual({ console: [], page: [], outside: [] });
    const verdict = await exported(operatory, caseFile.reference);
    const said = log.filter(({ place }) => place === 'said').map(({ text }) => text);
    return { script, said, verdict };
  } catch (error) {
    const log = await operatory.log();
    const lines = log.map(({ atMs, place, text }) => `${atMs} ${place}: ${text}`);
    throw new Error(`${String(error)}\n${lines.join('\n')}`, { cause: error });
  } finally {
    await operatory.close();
  }
}

// Side by side, because each takes as long as the appointment does.
test('both crowns are seated by voice alone, from the first word to the signed record', async () => {
  const [zirconia, disilicate] = await Promise.all([
    performed(ZIRCONIA_CASE, zirconiaTalk, 'americanWoman'),
    performed(DISILICATE_CASE, disilicateTalk, 'americanMan'),
  ]);
  for (const { script, verdict } of [zirconia, disilicate]) {
    expect(voiced(verdict.entries)).toEqual(script.lines.map(({ expected }) => expected));
    expect(verdict.closing?.kind).toBe('closing');
    // Nothing but the voice: no touch, no key.
    expect(verdict.entries.every(({ stamp }) => stamp.via === 'voice')).toBe(true);
  }
  expect(zirconia.said.join('\n')).toContain('Never in the mouth');
  expect(zirconia.said.join('\n')).toMatch(/seconds? (?:more|left|to go)/);
  expect(disilicate.said.join('\n')).toContain('Only etching takes silicone off');
});
