import { expect, test } from 'vitest';
import { GRADES } from '../../../machines/review/index.ts';

test('no grade stands twice: findings count them by name', () => {
  expect(new Set(GRADES).size).toBe(GRADES.length);
});
