/** The rendered calls: all there, of one loudness, and understood by a recogniser of another make. */
import { readFile, mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import createModule from 'soundswallower';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Call, REFUSALS } from '../../machines/contract/index.ts';
import { allPieces, callPieces } from '../../prompts/catalogue/index.ts';
import { renderClips } from '../../prompts/render/clips.ts';
import { Manifest, MANIFEST_FILE } from '../../prompts/render/manifest.ts';
import { decodeWav } from '../../prompts/render/wav.ts';
import { OWN } from '../phones.ts';
import { chance, rms } from '../speech/noise.ts';

const folder = fileURLToPath(new URL('../../.cache/clips', import.meta.url));
const pieces = allPieces();
let manifest: Manifest;

beforeAll(async () => {
  ({ manifest } = await renderClips(pieces, folder));
}, 5 * 60_000);

async function soundOf(piece: string): Promise<Float32Array> {
  const clip = manifest.clips[piece];
  if (clip === undefined) throw new Error(`no clip of "${piece}"`);
  const { pcm, rate } = decodeWav(await readFile(join(folder, clip.file)));
  expect(rate).toBe(manifest.rate);
  expect(Math.abs((pcm.length * 1000) / rate - clip.ms)).toBeLessThan(1);
  return pcm;
}

test('the manifest on disk has every piece and no other', async () => {
  const written: unknown = JSON.parse(await readFile(join(folder, MANIFEST_FILE), 'utf8'));
  expect(Manifest.parse(written)).toEqual(manifest);
  expect(Object.keys(manifest.clips).toSorted()).toEqual([...pieces].toSorted());
});

test('a second rendering makes nothing', async () => {
  expect(await renderClips(pieces, folder)).toEqual({ manifest, made: 0, removed: 0 });
});

test('clips that nothing needs any more go, and a missing one is made', async () => {
  const other = await mkdtemp(join(tmpdir(), 'seatcall-clips-'));
  try {
    expect(await renderClips(['Ten seconds.', 'Time.'], other)).toMatchObject({ made: 2 });
    expect(await renderClips(['Time.', 'Noted.'], other)).toMatchObject({ made: 1, removed: 1 });
  } finally {
    await rm(other, { recursive: true });
  }
}, 120_000);

test('every clip begins and ends with its speech, at one loudness', async () => {
  for (const piece of pieces) {
    const pcm = await soundOf(piece);
    const heard = pcm.findIndex((sample) => Math.abs(sample) > 0.01);
    const last = pcm.findLastIndex((sample) => Math.abs(sample) > 0.01);
    expect(heard / 16).toBeLessThan(120);
    expect((pcm.length - last) / 16).toBeLessThan(400);
    expect(Math.max(...pcm.map(Math.abs))).toBeLessThanOrEqual(0.9);
    const db = 20 * Math.log10(rms(pcm.subarray(heard, last)));
    expect(db).toBeGreaterThan(-26);
    expect(db).toBeLessThan(-15);
  }
});

/** A piece as a recogniser spells it. */
const wordsOf = (piece: string): string =>
  (
    piece
      .toLowerCase()
      .replaceAll('-', ' ')
      .match(/[a-z']+/g) ?? []
  ).join(' ');

/** JSGF of all pieces with their common beginnings shared: without that it takes three times as long. */
function grammarOf(texts: readonly string[]): string {
  interface Node extends Map<string, Node> {}
  const root: Node = new Map();
  for (const text of texts) {
    let node = root;
    for (const word of [...text.split(' '), '']) {
      const next: Node = node.get(word) ?? new Map();
      node.set(word, next);
      node = next;
    }
  }
  const print = (node: Node): string => {
    const options = [...node]
      .filter(([word]) => word !== '')
      .map(([word, next]) => `${word} ${print(next)}`.trim());
    if (options.length === 0) return '';
    return node.has('') ? `[${options.join(' | ')}]` : `(${options.join(' | ')})`;
  };
  return `#JSGF V1.0; grammar calls; public <call> = ${print(root)};`;
}

describe('held to a grammar of all pieces, the finite-state recogniser', () => {
  const model = join(
    dirname(createRequire(import.meta.url).resolve('soundswallower')),
    'model/en-us',
  );
  let hear: (pcm: Float32Array) => string;

  beforeAll(async () => {
    const module = await createModule();
    const decoder = new module.Decoder({ hmm: model, samprate: 16_000, loglevel: 'FATAL' });
    await decoder.initialize();
    for (const [word, phones] of Object.entries(OWN)) {
      // The dictionary's own pronunciation stays beside ours.
      const known = decoder.lookup_word(word) !== null;
      decoder.add_words([known ? `${word}(2)` : word, phones]);
    }
    decoder.set_grammar(grammarOf(pieces.map(wordsOf)));
    hear = (pcm) => {
      const padded = new Float32Array(pcm.length + 8_000);
      padded.set(pcm, 4_000);
      const next = chance(7);
      // Digital silence breaks its features; a little dither does not.
      const dithered = padded.map((sample) => sample + (next() - 0.5) / 4_096);
      decoder.start();
      decoder.process_audio(dithered, false, true);
      decoder.stop();
      return decoder.get_text();
    };
  });

  const urgent: readonly Call[] = [
    { id: 'stopped' },
    { id: 'working-time-over' },
    { id: 'opening' },
    ...(['porcelain-etch', 'silane', 'tooth-etch', 'abrade'] as const).map((step): Call => ({
      id: 'overdue',
      step,
    })),
    ...REFUSALS.map((id): Call => ({
      id: 'refusal',
      refusal: { id, step: null, wayOn: null, seconds: null, overridable: true },
    })),
  ];
  const chosen = new Set([
    ...urgent.flatMap(callPieces),
    ...pieces.filter((_piece, i) => i % 20 === 0),
  ]);

  test(
    'understands at least 97 in 100: every refusal and alarm, a twentieth of the rest',
    async () => {
      const wrong: string[] = [];
      for (const piece of chosen) {
        const heard = hear(await soundOf(piece));
        if (heard !== wordsOf(piece)) wrong.push(`${piece} | ${heard}`);
      }
      expect(chosen.size).toBeGreaterThan(100);
      // Three in a hundred may be wrong; a failure shows the rest.
      expect(wrong.slice(Math.floor(chosen.size * 0.03))).toEqual([]);
    },
    10 * 60_000,
  );
});
