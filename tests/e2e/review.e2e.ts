import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { InventedKey } from '../../assistant/cli/cohort-key.ts';
import { inventedRecord } from '../../assistant/cli/cohort-record.ts';
import { encryptText } from '../../assistant/store/passphrase.ts';
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
  await expect
    .poll(() => page.locator('.others').textContent())
    .toMatch(/changed\.jsonl: line \d+: /u);
  await expect.poll(() => page.locator('.reviewed button').count()).toBe(12);
  await page.getByText('Would the guard have caught it?').waitFor();
  await expect.poll(() => page.locator('.pattern').textContent()).toContain('12 invented');
  await expect.poll(() => page.locator('figure.picture svg[role=img]').count()).toBeGreaterThan(3);

  await page.getByLabel('Core or tooth inside it').selectOption('yes');
  const ranked = page.locator('.weighed tbody th');
  // The page draws at its next frame.
  await expect.poll(() => ranked.count()).toBe(7);
  await expect.poll(() => ranked.first().textContent()).toBe('core, post or tooth');
  await page.getByLabel('Came off on').fill('1990-01-01');
  await expect.poll(() => page.locator('.weighed').textContent()).not.toMatch(/caused by/u);
  await page.getByRole('button', { name: 'Clear' }).click();
  await expect.poll(() => page.locator('.pattern, .findings, .reviewed').count()).toBe(0);
  expect(problems).toEqual({ console: [], page: [], outside: [] });
});

it('opens files under a passphrase, all at once, and says which one did not open', async () => {
  const key = new InventedKey(8);
  const made = Array.from({ length: 3 }, (_, i) => inventedRecord({ seed: 8, haste: 1 }, i, key));
  const [plain, ...sealed] = made;
  if (plain === undefined) throw new Error('Nothing was made.');
  const words = ['four words will do', 'other words than those'];
  const locked = await Promise.all(
    sealed.map(async ({ name, text }, i) =>
      file(`${name}.jwe`, await encryptText(text, words[i] ?? '')),
    ),
  );
  operatory = await Operatory.open();
  const { page, problems } = operatory;
  await page.getByRole('button', { name: 'Review', exact: true }).click();
  await page
    .getByLabel(/Choose record files/u)
    .setInputFiles([file(plain.name, plain.text), ...locked]);
  const asking = page.getByRole('form', { name: 'Passphrase' });
  await asking.getByText('and 1 other file: under a passphrase.').waitFor();
  await asking.getByLabel('Its passphrase').fill('four words will do');
  await asking.getByRole('button', { name: 'Open it' }).click();
  await expect.poll(() => page.locator('.reviewed button').count()).toBe(2);
  await asking.getByText(/does not open the file/u).waitFor();
  await expect.poll(() => asking.textContent()).toContain(`${sealed[1]?.name}.jwe`);
  await asking.getByRole('button', { name: 'Leave it' }).click();
  await expect.poll(() => asking.count()).toBe(0);
  await expect
    .poll(() => page.locator('.others').textContent())
    .toContain('Not reviewed: it is under');
  expect(problems).toEqual({ console: [], page: [], outside: [] });
});

it('takes a whole folder of a thousand records, and the page answers all the while', async () => {
  const key = new InventedKey(9);
  const made = Array.from({ length: 50 }, (_, i) => inventedRecord({ seed: 9, haste: 1 }, i, key));
  const folder = await mkdtemp(join(tmpdir(), 'seatcall-folder-'));
  await Promise.all(
    Array.from({ length: 1000 }, (_, i) =>
      writeFile(join(folder, `${i}.jsonl`), made[i % made.length]?.text ?? ''),
    ),
  );
  operatory = await Operatory.open();
  const { page, problems } = operatory;
  await page.getByRole('button', { name: 'Review', exact: true }).click();
  // The longest time in which the page drew nothing.
  await page.evaluate(() => {
    let last = performance.now();
    const look = (now: number): void => {
      document.body.dataset['longest'] = String(
        Math.max(Number(document.body.dataset['longest'] ?? 0), now - last),
      );
      last = now;
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.getByLabel(/whole folder/u).setInputFiles(folder);
  await page.getByText('40 of 1000 are shown').waitFor({ timeout: 120_000 });
  await page.getByText(/1000 records, /u).waitFor({ timeout: 60_000 });
  const longest = Number(await page.evaluate(() => document.body.dataset['longest']));
  console.log(`longest time without a frame: ${longest.toFixed(0)} ms`);
  expect(longest).toBeLessThan(1000);
  await page.getByLabel('Look for a case').fill(made[7]?.name.slice(20, -6) ?? '');
  await expect.poll(() => page.locator('.reviewed button').count()).toBe(20);
  expect(problems).toEqual({ console: [], page: [], outside: [] });
  await rm(folder, { recursive: true });
});
