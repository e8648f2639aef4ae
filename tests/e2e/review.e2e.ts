import { afterEach, expect, it } from 'vitest';
import { InventedKey } from '../../assistant/cli/cohort-key.ts';
import { inventedRecord } from '../../assistant/cli/cohort-record.ts';
import { Operatory } from './harness.ts';

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

const file = (name: string, text: string) => ({
  name,
  mimeType: 'application/x-ndjson',
  buffer: Buffer.from(text),
});

it('reviews files chosen, weighs findings, and shows the pattern; one bad file does not stop the others', async () => {
  const key = new InventedKey(7);
  const made = Array.from({ length: 12 }, (_, i) => inventedRecord({ seed: 7, haste: 8 }, i, key));
  const [first] = made;
  if (first === undefined) throw new Error('Nothing was made.');
  const header = { format: 'seatcall-follow-up/1', invented: true };
  const recalls = [header, ...made.flatMap(({ followUps }) => followUps)];
  operatory = await Operatory.open();
  const { page, problems } = operatory;
  await page.getByRole('button', { name: 'Review', exact: true }).click();
  await page
    .getByLabel(/Choose record files/u)
    .setInputFiles([
      ...made.map(({ name, text }) => file(name, text)),
      file('changed.jsonl', first.text.replace('"who":"', '"who": "')),
      file('follow-up.ndjson', recalls.map((one) => `${JSON.stringify(one)}\n`).join('')),
    ]);
  await page.getByText('Follow-up of 12 restorations is known.').waitFor();
  expect(await page.locator('.others').textContent()).toMatch(/changed\.jsonl: line \d+: /u);
  expect(await page.locator('.reviewed button').count()).toBe(12);
  expect(await page.locator('.pattern').textContent()).toContain('12 invented');
  expect(await page.locator('figure.picture svg[role=img]').count()).toBeGreaterThan(3);

  await page.getByLabel('Core or tooth inside it').selectOption('yes');
  const ranked = page.locator('.weighed tbody th');
  // The page draws at its next frame.
  await expect.poll(() => ranked.count()).toBe(7);
  await expect.poll(() => ranked.first().textContent()).toBe('core, post or tooth');
  await page.getByLabel('Came off on').fill('1990-01-01');
  expect(await page.locator('.weighed').textContent()).not.toMatch(/caused by/u);
  await page.getByRole('button', { name: 'Clear' }).click();
  await expect.poll(() => page.locator('.pattern, .findings, .reviewed').count()).toBe(0);
  expect(problems).toEqual({ console: [], page: [], outside: [] });
});
