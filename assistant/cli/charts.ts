/** `npm run charts`: draws the state charts into docs/charts.md. */
import { writeFileSync } from 'node:fs';
import { chartsPage } from './draw-charts.ts';

writeFileSync(new URL('../../docs/charts.md', import.meta.url), chartsPage());
