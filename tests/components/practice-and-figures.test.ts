import { describe, expect, it } from 'vitest';
import { ratingLines } from '../../src/assessment/index.ts';
import { SHARES, sayLine } from '../../src/components/pass-mark/say-line.ts';
import { sayPractice } from '../../src/components/people/say-practice.ts';
import { plotScores } from '../../src/components/test-figures/plots.ts';
import {
  sayFigure,
  sayPart,
  sayQuiet,
  sayThought,
} from '../../src/components/test-figures/say-figure.ts';
import { mayShow } from '../../src/grading/index.ts';
import { loadBlueprints } from '../../src/store/content-files.ts';
import { sayIn } from '../../src/words/say.ts';

const say = sayIn('en');
const next = { id: 'a', met: 5, missed: 3, row: 0, days: 2, chance: 0.2 };

describe('why something is worth practising', () => {
  it('is said in one line', () => {
    expect(sayPractice(next, sayIn('en'))).toBe('Missed 3 of 5 times, the last time 2 days ago.');
    expect(sayPractice({ ...next, row: 1, days: 40 }, sayIn('en'))).toBe(
      'Missed 3 of 5 times. You found it 40 days ago; by now it may have slipped.',
    );
    expect(sayPractice({ ...next, met: 1, missed: 1, days: 0 }, sayIn('en'))).toBe(
      'You walked past it the one time it was there, today.',
    );
  });
});

describe('figures in words', () => {
  it('say from how many they would speak', () => {
    expect(sayQuiet(mayShow('reliability', 3), say)).toBe('Shown from 30 attempts on; 3 so far.');
  });

  it('keep a true minus, and tell what was thought from what was counted', () => {
    expect(sayFigure(-0.051, say)).toBe('−0.05');
    expect(sayThought(0.8, { low: 0.3, high: 0.7 }, say)).toBe(
      'thought to be 80 %: harder than that',
    );
    expect(sayThought(0.2, { low: 0.3, high: 0.7 }, say)).toBe(
      'thought to be 20 %: easier than that',
    );
    expect(sayThought(0.5, { low: 0.3, high: 0.7 }, say)).toBe('thought to be 50 %');
  });

  it('name a part by its kind and number', () => {
    expect(sayPart('react-2', say)).toBe('Trouble at the bench, 2');
    expect(sayPart('find', say)).toBe('Faults named');
  });

  it('draw one step for each score, up to all of them', () => {
    const { curves, lines } = plotScores([40, 60, 60, 90], 64, say);
    expect(curves[0]?.points).toContainEqual({ x: 60, y: 75 });
    expect(curves[0]?.points.at(-1)).toEqual({ x: 100, y: 100 });
    expect(lines).toEqual([{ axis: 'x', at: 64, label: 'Pass mark 64' }]);
  });
});

describe('the parts of every test', () => {
  it('have words for the trainer who rates them', () => {
    for (const blueprint of loadBlueprints('content').values()) {
      for (const line of ratingLines(blueprint)) expect(sayLine(line, say).ask).not.toBe('');
    }
    expect(() => sayLine({ id: 'toString', count: 1 }, say)).toThrow(RangeError);
  });

  it('are rated in twentieths from none to all', () => {
    expect(SHARES.map(({ share }) => share)).toEqual(
      Array.from({ length: 21 }, (_, people) => people / 20),
    );
  });
});
