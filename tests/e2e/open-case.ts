import { rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CaseFile } from '../../machines/contract/index.ts';
import type { Operatory } from './harness.ts';

/** Opens a case from its file, with one click, and waits until somebody may speak. */
export async function openCase(operatory: Operatory, caseFile: CaseFile): Promise<void> {
  const { page } = operatory;
  const file = join(tmpdir(), `${caseFile.reference}.json`);
  await writeFile(file, JSON.stringify(caseFile));
  await page.getByLabel('Load a case file').setInputFiles(file);
  await page.getByRole('button', { name: 'Open case' }).click();
  await operatory.until('ear', /Asleep|Awake/, 60_000);
  await rm(file);
}
