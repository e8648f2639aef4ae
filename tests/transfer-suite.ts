/** What export and import must do over every store; see `store-suite.ts`. */
import { close } from '../assistant/store/signing.ts';
import type { Store } from '../assistant/store/store.ts';
import { exportCase, importCase, sealFile } from '../assistant/store/transfer.ts';
import { caseIdOf, toJsonLines } from '../machines/record/index.ts';
import { sampleRecord } from './record-maker.ts';
import type { StoreCase } from './store-suite.ts';

const WALL = '2026-02-03T09:15:00.000Z';
const { header, entries, head } = sampleRecord(4);
const caseId = caseIdOf(header);

/** Imports a file's text; what came of it, without the case's id. */
async function take(store: Store, text: string, passphrase: string | null = null) {
  const imported = await importCase(store, new TextEncoder().encode(text), passphrase);
  if (!('caseId' in imported)) return imported;
  const { kind, sealed } = imported;
  return { kind, sealed };
}

/** The file with another role in its third line, entry 2. */
function altered(text: string): string {
  const lines = text.split('\n');
  const other = lines[2]?.replace('"who":"assistant"', '"who":"dentist"');
  if (other === undefined || other === lines[2]) throw new Error('nothing was altered');
  return lines.with(2, other).join('\n');
}

async function closedFile(store: Store): Promise<string> {
  const closing = await close(await store.signingKeys(), head, WALL);
  return toJsonLines([header, ...entries, closing]);
}

export const TRANSFER_CASES: readonly StoreCase[] = [
  {
    name: 'imports a closed record once, and knows it again',
    expected: [{ kind: 'new', sealed: true }, { kind: 'same', sealed: true }, 6],
    async observe(open) {
      const store = await open();
      const file = await closedFile(store);
      const came = [await take(store, file), await take(store, file)];
      const { length } = await store.lines(caseId);
      store.close();
      return [...came, length];
    },
  },
  {
    name: 'refuses an altered file with the entry and the reason, and keeps nothing of it',
    expected: [
      {
        kind: 'refused',
        line: 3,
        entry: 2,
        message:
          'Entry 2 was changed after it was written, or put there from another record: entry 3 does not carry its digest.',
      },
      [],
    ],
    async observe(open) {
      const store = await open();
      const came = await take(store, altered(await closedFile(store)));
      const list = await store.listCases();
      store.close();
      return [came, list];
    },
  },
  {
    name: 'refuses a file signed by nobody',
    expected: [
      {
        kind: 'refused',
        line: 6,
        entry: null,
        message: 'The closing was changed: its signature does not fit.',
      },
      [],
    ],
    async observe(open) {
      const store = await open();
      const file = (await closedFile(store)).replace('T09:15:00.000Z', 'T09:16:00.000Z');
      const came = await take(store, file);
      const list = await store.listCases();
      store.close();
      return [came, list];
    },
  },
  {
    name: 'seals an open case by a checkpoint, and takes an older or newer file for what it is',
    expected: [
      'seatcall-2026-02-03-invented-1-',
      { kind: 'same', sealed: true },
      { kind: 'older', sealed: true },
      { kind: 'newer', sealed: true },
      { kind: 'older', sealed: false },
      6,
    ],
    async observe(open) {
      const store = await open();
      await store.putRecord(header, entries.slice(0, 2));
      const two = await exportCase(store, caseId, WALL);
      const same = await take(store, two.text);
      await take(store, toJsonLines([header, ...entries.slice(0, 3)]));
      const older = await take(store, two.text);
      const newer = await take(store, await closedFile(store));
      const bare = await take(store, toJsonLines([header, ...entries]));
      const { length } = await store.lines(caseId);
      store.close();
      return [two.name.slice(0, -'12345678.jsonl'.length), same, older, newer, bare, length];
    },
  },
  {
    name: 'asks for the passphrase of an encrypted file, and loses nothing by a wrong one',
    expected: [
      '.jsonl.jwe',
      { kind: 'encrypted', message: null },
      {
        kind: 'encrypted',
        message:
          'This passphrase does not open the file: it is another one, or the file was changed. Nothing was lost; try again.',
      },
      [],
      { kind: 'new', sealed: true },
      6,
    ],
    async observe(open) {
      const store = await open();
      const file = { name: 'case.jsonl', text: await closedFile(store) };
      const { name, text } = await sealFile(file, 'four words in march');
      const asked = await take(store, text);
      const wrong = await take(store, text, 'four words in april');
      const list = await store.listCases();
      const came = await take(store, text, 'four words in march');
      const { length } = await store.lines(caseId);
      store.close();
      return [name.slice(-'.jsonl.jwe'.length), asked, wrong, list, came, length];
    },
  },
  {
    name: 'keeps what a cut file still has only when asked, marked until the rest comes; it goes out unsealed',
    expected: [
      { kind: 'cut', line: 4, after: 2 },
      [],
      'new',
      [[2, 2, false]],
      [],
      '-cut-after-2.jsonl',
      3,
      'newer',
      [[3, 3, false]],
      'older',
      [[3, 3, false]],
      'newer',
      [[4, null, true]],
    ],
    async observe(open) {
      const store = await open();
      const whole = await closedFile(store);
      const lines = whole.split('\n');
      /** The file up to the middle of a line. */
      const cut = (line: number): Uint8Array =>
        new TextEncoder().encode(
          `${lines.slice(0, line - 1).join('\n')}\n${lines[line]?.slice(0, 40)}`,
        );
      const list = async () =>
        (await store.listCases()).map((one) => [one.entries, one.cutAfter ?? null, one.closed]);
      const asked = await importCase(store, cut(4));
      const said = asked.kind === 'cut' ? { ...asked, message: undefined } : asked;
      const seen: unknown[] = [JSON.parse(JSON.stringify(said)), await list()];
      const kept = await importCase(store, cut(4), null, true);
      seen.push(kept.kind, await list(), await store.unfinished());
      const out = await exportCase(store, caseId, WALL);
      seen.push(out.name.slice(-'-cut-after-2.jsonl'.length), out.text.trim().split('\n').length);
      seen.push((await importCase(store, cut(5), null, true)).kind, await list());
      seen.push((await importCase(store, cut(4), null, true)).kind, await list());
      seen.push((await take(store, whole)).kind, await list());
      store.close();
      return seen;
    },
  },
  {
    name: 'refuses another story of the same case',
    expected: [
      {
        kind: 'refused',
        line: 3,
        entry: 2,
        message:
          'Entry 2 is not the one this machine has for the same case: one of the two was made elsewhere.',
      },
      3,
    ],
    async observe(open) {
      const store = await open();
      const [first, second] = entries;
      if (first === undefined || second === undefined) throw new Error('the sample is too short');
      await store.putRecord(header, [first, second]);
      const other = toJsonLines([header, first, { ...second, tooth: null }]);
      const came = await take(store, other);
      const { length } = await store.lines(caseId);
      store.close();
      return [came, length];
    },
  },
];
