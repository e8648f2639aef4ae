import { afterEach, describe, expect, it } from 'vitest';
import { keptUntil } from '../../assistant/app/retention.ts';
import { timeOfDay } from '../../assistant/screens/format.ts';
import { makeCaseClock } from '../../assistant/store/clock.ts';
import { MemoryStore } from '../../assistant/store/memory.ts';
import { close } from '../../assistant/store/signing.ts';
import { exportCase } from '../../assistant/store/transfer.ts';
import { toFhir } from '../../machines/export/index.ts';
import { caseIdOf, verifyText } from '../../machines/record/index.ts';
import { sampleRecord } from '../record-maker.ts';

const here = process.env['TZ'];
afterEach(() => {
  if (here === undefined) delete process.env['TZ'];
  else process.env['TZ'] = here;
});

/** UTC, half an hour off, both ends of the date line, and zones that change on different days. */
const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/St_Johns',
  'Asia/Kathmandu',
  'Pacific/Kiritimati',
  'Pacific/Pago_Pago',
  'Australia/Lord_Howe',
] as const;

const offsetOf = (iso: string): number => -new Date(iso).getTimezoneOffset();

describe('in every time zone', () => {
  it('the same record is the same file, of the same name, and the same bundle', async () => {
    const { header, entries, head } = sampleRecord(6);
    const store = new MemoryStore();
    const closing = await close(await store.signingKeys(), head, '2026-02-03T23:30:00.000Z');
    await store.putRecord(header, [...entries, closing]);
    const seen = new Set<string>();
    for (const zone of ZONES) {
      process.env['TZ'] = zone;
      const { name, text } = await exportCase(store, caseIdOf(header), closing.wall);
      const verdict = verifyText(text);
      const bundle = verdict.ok ? JSON.stringify(toFhir(verdict)) : verdict.message;
      seen.add(`${name}\n${text}\n${bundle}\n${keptUntil(closing.wall, 10)}`);
    }
    expect(seen.size).toBe(1);
    // The zones were really set.
    process.env['TZ'] = 'Asia/Kathmandu';
    expect(offsetOf(closing.wall)).toBe(345);
  });
});

/** Central Europe, 2026: at 01:00 UTC on 29 March the hands go from 2 to 3, on 25 October from 3 to 2. */
describe('over a change to and from summer time', () => {
  it.each([
    ['to', '2026-03-29', '01:59:50', '03:00:10'],
    ['from', '2026-10-25', '02:59:50', '02:00:10'],
  ])('%s it: case time goes on by 20 s, and the hands are shown as they stood', (_, day, a, b) => {
    process.env['TZ'] = 'Europe/Berlin';
    const before = `${day}T00:59:50.000Z`;
    const after = `${day}T01:00:10.000Z`;
    let wall = Date.parse(before);
    let mono = 0;
    const clock = makeCaseClock({ wall: () => wall, mono: () => mono }, { at: 5000, wall: before });
    const first = clock.now();
    wall += 20_000;
    mono += 20_000;
    const second = clock.now();
    expect([first.at, first.wall, second.at, second.wall]).toEqual([5000, before, 25_000, after]);
    expect([clock.driftMs(), clock.notice]).toEqual([0, null]);
    expect([before, after].map((iso) => timeOfDay(iso, offsetOf(iso)))).toEqual([a, b]);
    // Taken up again after the change, by the wall clock alone.
    const again = makeCaseClock({ wall: () => wall, mono: () => 0 }, { at: 5000, wall: before });
    expect(again.now().at).toBe(25_000);
  });
});
