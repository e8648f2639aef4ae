/** Renders the pieces of every call into a folder, doing only what is not there yet. */
import { fork } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { flitePath } from './flite-path.ts';
import type { FliteVoice } from './flite.ts';
import { lexiconText } from './lexicon.ts';
import { type Manifest, MANIFEST_FILE } from './manifest.ts';

/** The voice of Seatcall, and how much slower than its own pace: words must survive suction noise. */
export const VOICE: FliteVoice = 'slt';
export const STRETCH = 1.05;
/** Rate of that voice, samples a second. */
export const RATE = 16_000;
/** Raise it when the treatment of the sound changes. */
const VERSION = 1;
const WAV_HEADER_BYTES = 44;

/** One clip to make. */
export interface Job {
  readonly piece: string;
  readonly file: string;
}

/** What a rendering did. */
export interface Rendered {
  readonly manifest: Manifest;
  readonly made: number;
  readonly removed: number;
}

async function synthesiserVersion(): Promise<string> {
  const text = await readFile(join(dirname(flitePath), 'package.json'), 'utf8');
  const parsed: unknown = JSON.parse(text);
  const has = typeof parsed === 'object' && parsed !== null && 'version' in parsed;
  return has ? String(parsed.version) : 'unknown';
}

/** Names of clips are hashes of everything their sound depends on. */
async function jobsFor(pieces: readonly string[]): Promise<readonly Job[]> {
  const base = JSON.stringify([VERSION, await synthesiserVersion(), VOICE, STRETCH, lexiconText()]);
  return pieces.map((piece) => {
    const digest = createHash('sha256').update(base).update(piece).digest('hex');
    return { piece, file: `${digest.slice(0, 20)}.wav` };
  });
}

/** What one rendering process is told to do. */
export interface Share {
  readonly jobs: readonly Job[];
  readonly folder: string;
  readonly voice: FliteVoice;
  readonly stretch: number;
}

function renderShare(share: Share): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('./clip-process.ts', import.meta.url)), [], {
      execArgv: ['--import', 'tsx', '--disable-warning=ExperimentalWarning'],
    });
    child.on('error', reject);
    child.on('exit', (code) => {
      if (code === 0) resolve();
      else reject(new Error(`a rendering process ended with ${String(code)}`));
    });
    child.send(share);
  });
}

/** Runs jobs in processes of their own: the synthesiser blocks the thread it runs in. */
async function render(jobs: readonly Job[], folder: string): Promise<void> {
  const count = Math.min(4, availableParallelism(), jobs.length);
  await Promise.all(
    Array.from({ length: count }, (_, i) =>
      renderShare({
        jobs: jobs.filter((_job, j) => j % count === i),
        folder,
        voice: VOICE,
        stretch: STRETCH,
      }),
    ),
  );
}

/** Renders `pieces` into `folder` with a manifest, and removes the clips nothing needs any more. */
export async function renderClips(pieces: readonly string[], folder: string): Promise<Rendered> {
  await mkdir(folder, { recursive: true });
  const jobs = await jobsFor(pieces);
  const before = new Set(await readdir(folder));
  const missing = jobs.filter(({ file }) => !before.has(file));
  if (missing.length > 0) await render(missing, folder);
  const lengths = await Promise.all(jobs.map(({ file }) => stat(join(folder, file))));
  const manifest: Manifest = {
    format: 'seatcall-clips/1',
    voice: VOICE,
    rate: RATE,
    clips: Object.fromEntries(
      jobs.map(({ piece, file }, i) => {
        const bytes = (lengths[i]?.size ?? 0) - WAV_HEADER_BYTES;
        return [piece, { file, ms: Math.round((bytes / 2 / RATE) * 1000) }];
      }),
    ),
  };
  const wanted = new Set([...jobs.map(({ file }) => file), MANIFEST_FILE]);
  const stale = [...before].filter((file) => !wanted.has(file));
  await Promise.all(stale.map((file) => rm(join(folder, file), { recursive: true })));
  const text = `${JSON.stringify(manifest, null, 1)}\n`;
  const draft = join(folder, `${MANIFEST_FILE}.${randomUUID()}`);
  await writeFile(draft, text);
  await rename(draft, join(folder, MANIFEST_FILE));
  return { manifest, made: missing.length, removed: stale.length };
}
