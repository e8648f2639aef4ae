import { describe, expect, it } from 'vitest';
import { circling } from '../house/circles.ts';
import { allModules, readModule } from '../house/modules.ts';
import { broken, unexplained } from '../house/rules.ts';

const breaches = (file: string, source: string): readonly string[] =>
  readModule(file, source).arrows.flatMap((arrow) => broken(arrow) ?? []);

describe('arrows point one way', () => {
  const modules = allModules();

  it('in every module of the repository', () => {
    expect(modules.flatMap(({ arrows }) => arrows.flatMap((one) => broken(one) ?? []))).toEqual([]);
  });

  it('and in no circle, not even for a type', () => {
    expect(circling(modules.flatMap(({ arrows }) => arrows))).toEqual([]);
    const pointing = (...pairs: readonly string[]) =>
      pairs.map((pair) => ({ from: pair.slice(0, 1), to: pair.slice(1) }));
    expect(circling(pointing('ab', 'bc', 'ac'))).toEqual([]);
    expect(circling(pointing('ab', 'bc', 'ca', 'xa', 'cy'))).toEqual(pointing('ab', 'bc', 'ca'));
  });

  it('and every room was looked at', () => {
    for (const room of ['machines', 'prompts', 'assistant', 'tests']) {
      const here = modules.filter(({ file }) => file.startsWith(`${room}/`));
      expect(here.length, room).toBeGreaterThan(0);
      expect(here.flatMap(({ arrows }) => arrows).length, room).toBeGreaterThan(0);
    }
  });

  it('and a breach of each kind is found', () => {
    expect(breaches('machines/a.ts', "import fs from 'node:fs';")).toHaveLength(1);
    expect(breaches('machines/a.ts', "export * from '../prompts/index.ts';")).toHaveLength(1);
    expect(breaches('machines/a.ts', "export { x } from 'xstate-like';")).toHaveLength(1);
    expect(breaches('machines/x/a.ts', "await import('../../assistant/a.ts');")).toHaveLength(1);
    expect(breaches('prompts/a.ts', "import '../machines/plan/index.ts';")).toHaveLength(1);
    expect(breaches('prompts/a.ts', "import type { A } from '../assistant/a.ts';")).toHaveLength(1);
    expect(breaches('assistant/a.ts', "import '../tests/speech/index.ts';")).toHaveLength(1);
    expect(
      breaches('assistant/a.ts', "new Worker(new URL('../tests/w.ts', import.meta.url));"),
    ).toHaveLength(1);
    expect(
      breaches('prompts/render/a.ts', "import '@echogarden/espeak-ng-emscripten';"),
    ).toHaveLength(1);
  });

  it('and what is allowed passes', () => {
    const source = `
      import { setup } from 'xstate'; import { getShortestPaths } from 'xstate/graph';
      import { z } from 'zod'; import { sha256 } from '@noble/hashes/sha2.js';
      import canonicalize from 'canonicalize'; import { b } from '../b.ts';`;
    expect(breaches('machines/x/a.ts', source)).toEqual([]);
    expect(breaches('prompts/a.ts', "import '../machines/contract/index.ts';")).toEqual([]);
    expect(breaches('assistant/a.ts', "import '../machines/plan/index.ts';")).toEqual([]);
  });

  it('and a file that does not parse is no clean file', () => {
    expect(() => readModule('machines/a.ts', 'import {')).toThrow('machines/a.ts');
  });
});

describe('checks are switched off only with a reason', () => {
  it('in every module of the repository', () => {
    const found = allModules().flatMap(({ file, comments }) =>
      comments.filter(unexplained).map((comment) => `${file}: ${comment.trim()}`),
    );
    expect(found).toEqual([]);
  });

  it('and one without a reason is found', () => {
    expect(unexplained(' oxlint-disable-next-line no-eval')).toBe(true);
    expect(unexplained(' @ts-expect-error')).toBe(true);
    expect(unexplained(' oxlint-disable-next-line no-eval -- the package has no other way')).toBe(
      false,
    );
  });
});
