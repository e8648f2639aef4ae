import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveBuild, type Served } from './serve.ts';

const DIST = fileURLToPath(new URL('../../dist/', import.meta.url));
const assets = readdirSync(`${DIST}assets`);

let served: Served;
beforeAll(async () => {
  served = await serveBuild();
});
afterAll(() => served.close());

const get = (path: string): Promise<Response> => fetch(new URL(path, served.url));

function asset(pattern: RegExp): string {
  const found = assets.find((name) => pattern.test(name));
  if (found === undefined) throw new Error(`no asset is like ${pattern.source}`);
  return `assets/${found}`;
}

describe('the built page is served', () => {
  it('sealed: it may reach and load nothing but itself', async () => {
    const { headers } = await get('');
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/https?:|\*|'unsafe-eval'/u);
    const loose = policy.split('; ').filter((directive) => directive.includes("'unsafe-inline'"));
    expect(loose).toEqual(["style-src-attr 'unsafe-inline'"]);
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-embedder-policy')).toBe('require-corp');
    expect(readFileSync(`${DIST}index.html`, 'utf8')).toContain(
      'http-equiv="Content-Security-Policy"',
    );
  });

  it('but for one script: the worker of an engine that checks its key online', async () => {
    const open = [];
    for (const name of assets) {
      const answer = await get(`assets/${name}`);
      await answer.body?.cancel();
      const policy = answer.headers.get('content-security-policy') ?? '';
      if (/https?:/u.test(policy)) open.push([name.replace(/-[\w-]+(?=\.js$)/u, ''), policy]);
    }
    expect(open).toEqual([
      ['wake-word.worker.js', expect.stringContaining("connect-src 'self' blob: data: https:;")],
    ]);
  });

  it('its page anew each time, its hashed files once a year', async () => {
    expect((await get('')).headers.get('cache-control')).toBe('no-cache');
    for (const name of ['encoder_fitted', 'encoder_given', 'decoder_trimmed']) {
      const pattern = new RegExp(`^${name}-.*\\.onnx$`, 'u');
      const answer = await get(asset(pattern));
      expect(answer.status).toBe(200);
      expect(answer.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
      await answer.body?.cancel();
    }
  });

  it('with the types that streaming compilation and modules ask for', async () => {
    const wasm = await get(asset(/^ort-wasm.*\.wasm$/u));
    expect(wasm.headers.get('content-type')).toBe('application/wasm');
    await wasm.body?.cancel();
    const script = await get(asset(/^index-.*\.js$/u));
    expect(script.headers.get('content-type')).toMatch(/^text\/javascript/u);
    await script.body?.cancel();
  });

  it('and a clip that is not there is not found', async () => {
    expect((await get('clips/no-such-clip.wav')).status).toBe(404);
  });

  it('with the licences of what is in it', async () => {
    const text = await (await get('notices.txt')).text();
    expect(text).toContain('Language Technologies Institute');
    expect(text).toContain('onnxruntime-web');
    expect((await get('licences.md')).status).toBe(200);
  });
});
