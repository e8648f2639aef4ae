import { readFile } from 'node:fs/promises';
import { type Verified, verifySealed } from '../../machines/record/index.ts';
import { checkSignature } from '../../assistant/store/signing.ts';
import type { Operatory } from './harness.ts';

/** The record as the desk exports it, verified with its seal. */
export async function exported(operatory: Operatory, reference: string): Promise<Verified> {
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
