import { afterEach, expect, it } from 'vitest';
import { Operatory } from './harness.ts';

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

it('keeps what stood on the page, even for a moment, and waits for what comes', async () => {
  operatory = await Operatory.open();
  await operatory.page.evaluate(() => {
    const add = (tag: string, role: string, text: string): HTMLElement => {
      const element = document.createElement(tag);
      element.setAttribute('role', role);
      element.textContent = text;
      document.body.append(element);
      return element;
    };
    const brief = add('p', 'alert', 'No. The crown is in the mouth.');
    setTimeout(() => brief.remove(), 30);
    setTimeout(() => add('p', 'status', 'Time.'), 400);
  });
  const alerted = await operatory.until('alert', /in the mouth/u);
  const called = await operatory.until('said', /Time\./u, 2_000, alerted);
  const log = await operatory.log();
  const cleared = log.findIndex(({ place, text }) => place === 'alert' && text === '');
  expect(alerted).toBeLessThan(cleared);
  expect(cleared).toBeLessThan(called);
  await expect(operatory.until('step', /no such step/u, 200)).rejects.toThrow('no step like');
});
