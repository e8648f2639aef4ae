import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { chartsPage } from '../../assistant/cli/draw-charts.ts';

test('docs/charts.md shows the machines as they are', () => {
  const page = readFileSync(new URL('../../docs/charts.md', import.meta.url), 'utf8');
  expect(page).toBe(chartsPage());
});
