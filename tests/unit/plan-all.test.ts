import { expect, test } from 'vitest';
import { allText } from '../../assistant/cli/all-text.ts';

test('the tooth side of every substrate, then the first material kind by kind, fit for a terminal', () => {
  const chunks = allText();
  const read = Array.from({ length: 5 }, () => String(chunks.next().value));
  const [tooth = '', material = '', crown = '', bridge = '', veneer = ''] = read;
  expect(tooth).toContain('TOOTH AND ABUTMENT SIDE');
  expect(tooth).toContain(
    'adhesive-resin-light, adhesive-resin-dual, adhesive-resin-self: isolate, pumice, dry-check',
  );
  expect(material).toContain('FELDSPATHIC PORCELAIN (FEL, ISO 6872 class 1)');
  expect(material).toContain('etched    15 / 60 / 120 s, hydrofluoric acid 5 %');
  expect(crown).toContain('yes adhesive-resin-dual on dentin, enamel, sealed-dentin');
  expect(crown).toContain('no  zinc-phosphate on');
  expect(crown).toContain('porcelain-etch 60, porcelain-etch-rinse 60, intaglio-dry 10 (good for');
  expect(bridge).toContain('none: its strength is below what a bridge needs');
  expect(veneer).toContain('yes adhesive-resin-light on');
  const wide = read.flatMap((chunk) => chunk.split('\n')).filter((line) => line.length > 100);
  expect(wide).toEqual([]);
});
