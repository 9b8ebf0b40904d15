import { describe, expect, it } from 'vitest';
import { countSyllables, gradeLevel } from '../../src/content-check/index.ts';

describe('the reading age', () => {
  // counted by hand from the syllable breaks printed in an English dictionary (from memory)
  it.each([
    ['knife', 1],
    ['blade', 1],
    ['table', 2],
    ['riving', 2],
    ['measured', 2],
    ['locked', 1],
    ['fitted', 2],
    ['gullets', 2],
    ['operator', 4],
    ['sizes', 2],
    ['teeth', 1],
    ['edges', 2],
  ])('counts the syllables of %s', (word, syllables) => {
    expect(countSyllables(word)).toBe(syllables);
  });

  it('gives the cat on the mat grade -1.45', () => {
    // 6 words, 1 sentence, 6 syllables: 0.39 * 6 + 11.8 - 15.59, worked by hand
    expect(gradeLevel('The cat sat on the mat.')).toBeCloseTo(-1.45, 6);
  });

  it('tells a hard sentence from an easy one', () => {
    const hard =
      'Notwithstanding considerable experimental uncertainty, practitioners systematically underestimate instability.';
    expect(gradeLevel(hard)).toBeGreaterThan(20);
  });
});
