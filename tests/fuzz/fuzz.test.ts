import { describe, expect, test } from 'vitest';
import { fuzz } from './fuzz.ts';

/** The full count, a hundred thousand, is run by tests/fuzz/run.ts; this keeps it honest at every commit. */
describe('spoiled files', () => {
  test('crash nothing: each is refused in one sentence or graded (seed "three thousand")', () => {
    const counted = fuzz('three thousand', 3000);
    const files = Object.values(counted).reduce((sum, one) => sum + one.files, 0);
    expect(files).toBe(3000);
    // some of each kind must get through the schema, or nothing behind it is tried
    for (const [kind, { taken, files: all }] of Object.entries(counted)) {
      expect(all, kind).toBeGreaterThan(5);
      if (kind !== 'content YAML') expect(taken, kind).toBeGreaterThan(0);
      expect(taken, kind).toBeLessThan(all);
    }
  });
});
