/** Records on the built page: taken in, shown, printed, checked, put under a passphrase, deleted. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import { seatedRecord, type SeatedRecord } from '../seated-record.ts';
import { Operatory } from './harness.ts';

const PASSPHRASE = 'four words in march';
let folder = '';
let record: SeatedRecord;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'seatcall-records-'));
  record = await seatedRecord(ZIRCONIA_CASE, seatZirconia);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function fileOf(name: string, text: string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
}

/** The file with entry 5's tooth changed. */
function altered({ text }: SeatedRecord): string {
  const lines = text.split('\n');
  const other = lines[5]?.replace('"who":"dentist"', '"who":"assistant"');
  if (other === undefined || other === lines[5]) throw new Error('nothing was altered');
  return lines.with(5, other).join('\n');
}

test('what a cut-off file still holds can be kept, is shown as incomplete, and gives way to the whole file', async () => {
  const operatory = await Operatory.open({ viewport: 'desk' });
  const { page, problems } = operatory;
  const lines = record.text.split('\n');
  const cut = [...lines.slice(0, 7), lines[7]?.slice(0, 40)].join('\n');
  const incomplete = page.getByText('Incomplete: cut off after entry 6');
  try {
    await page.getByText(/Kept in this browser/u).click();
    await page.setInputFiles('#import-record', await fileOf('cut.jsonl', cut));
    await page.getByRole('button', { name: 'Keep the first 6 entries' }).click();
    await incomplete.waitFor();
    await expect.poll(() => page.locator('.refused-file').count()).toBe(0);
    await page.setInputFiles('#import-record', await fileOf('whole.jsonl', record.text));
    await incomplete.waitFor({ state: 'detached' });
    expect(problems).toEqual({ console: [], page: [], outside: [] });
  } finally {
    await operatory.close();
  }
});

test('a record is taken in, put under a passphrase, checked, printed, and deleted for good', async () => {
  const operatory = await Operatory.open({ viewport: 'desk' });
  const { page, problems } = operatory;
  const { reference } = ZIRCONIA_CASE;
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  const text = async (selector: string): Promise<string> =>
    ((await page.locator(selector).textContent()) ?? '').replaceAll(/\s+/gu, ' ').trim();
  const take = (path: string) => page.setInputFiles('#import-record', path);
  const kept = page.getByText(/Kept in this browser/u);
  try {
    // Taken in, and a bad one is not.
    await kept.click();
    await take(await fileOf('bad.jsonl', altered(record)));
    await expect.poll(() => text('.refused-file')).toContain('entry 5 does not hold');
    await button('Understood').click();
    await take(await fileOf('good.jsonl', record.text));
    await button(`Show the record of ${reference}`).click();
    await expect.poll(() => text('.chain')).toBe('The chain is whole. Its signature is good.');

    // Under a passphrase, by this page and back into it.
    await button('Export under a passphrase').click();
    await page.fill('#passphrase', PASSPHRASE);
    await page.fill('#passphrase-again', `${PASSPHRASE}!`);
    await button('Export encrypted').click();
    await expect.poll(() => text('.asking .field-bad')).toBe('The two are not the same.');
    await page.fill('#passphrase', PASSPHRASE);
    await page.fill('#passphrase-again', PASSPHRASE);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      button('Export encrypted').click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/\.jsonl\.jwe$/u);
    const sealed = await readFile(await download.path(), 'utf8');
    expect(sealed).not.toContain(reference);

    // Checked without being taken in: encrypted, and altered.
    await button('Check a file').click();
    await page.setInputFiles('#check-file', await fileOf('sealed.jsonl.jwe', sealed));
    await page.fill('#unlock', 'four words in april');
    await button('Open it').click();
    await page.getByText('This passphrase does not open the file').waitFor();
    await page.fill('#unlock', PASSPHRASE);
    await button('Open it').click();
    await page.getByText('The chain is whole.').waitFor();
    await expect.poll(() => text('.record-top')).toContain(`${record.entries.length} entries.`);
    await expect.poll(() => text('.record-top')).toContain('a key that is not this browser’s');
    await page.setInputFiles('#check-file', await fileOf('bad.jsonl', altered(record)));
    await page.getByText('Entry 5 does not hold.').waitFor();
    await expect
      .poll(() => text('.record-top'))
      .toContain('The fault is in line 6 of the file. Before it, 4');

    // Printed: plan, entries, departures and seal; none of the buttons.
    await button('Record').click();
    await page.emulateMedia({ media: 'print' });
    await page.getByText('Departures from the plan').first().waitFor();
    const printed = await page.locator('#app').innerText();
    for (const part of [
      'Departures from the plan',
      'Plan',
      'Entries',
      'Seal',
      record.head.digest,
      'Skipped',
      reference,
    ])
      expect(printed).toContain(part);
    expect(printed).toContain(record.closing?.signature);
    await expect.poll(() => button('Print').isVisible()).toBe(false);
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    await page.emulateMedia({ media: 'screen' });
    await expect.poll(() => page.locator('.printed-seal').isVisible()).toBe(false);

    // Deleted: read back, typed, and never taken in again.
    await button('Delete').click();
    await expect
      .poll(() => text('.asking-grave'))
      .toContain(`${record.entries.length} entries, closed. No years of keeping are set.`);
    await page.selectOption('#deletion-reason', 'demo');
    await page.fill('#deletion-reference', 'another');
    await button('Delete for good').click();
    await page.getByText(`This is not its case reference, ${reference}.`).waitFor();
    await page.fill('#deletion-reference', reference);
    await button('Delete for good').click();
    await page.getByText(`The record of ${reference} was deleted (deletion 1).`).waitFor();
    await take(join(folder, 'good.jsonl'));
    await page.getByText('This very record was deleted here').waitFor();
    await page.reload();
    await page.getByText('1 deletion', { exact: true }).click();
    await expect
      .poll(() => text('.ledger'))
      .toContain('The list of deletions is whole and signed.');
    await expect.poll(() => button(`Show the record of ${reference}`).count()).toBe(0);
    expect(problems).toEqual({ console: [], page: [], outside: [] });
  } finally {
    await operatory.close();
  }
});
