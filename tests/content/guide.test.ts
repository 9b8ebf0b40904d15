import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Bench, findFigure, WORKINGS } from '../../src/bench/index.ts';
import {
  FactFileSchema,
  LessonSchema,
  QuestionFileSchema,
} from '../../src/components/lesson/lesson-schema.ts';
import { makePlot, READY_PLOTS } from '../../src/components/lesson/plots/index.ts';
import { isDimensionId, PART_LABELS } from '../../src/drawing/index.ts';
import { loadBenches, loadLimitSets } from '../../src/store/content-files.ts';
import { sayIn } from '../../src/words/say.ts';

/** The guide for writers says what is so: its examples are read as content is. */
const GUIDE = readFileSync(
  join(resolve(import.meta.dirname, '../../content'), 'README.md'),
  'utf8',
);
const bench = loadBenches().get('lesson-bench') as Bench;
const [head, facts, questions] = [...GUIDE.matchAll(/```yaml\n([\s\S]*?)```/g)].map(
  ([, text = '']) => parse(text),
);

describe('the guide for writers', () => {
  it('shows a head, facts and questions that can be read', () => {
    expect(() => LessonSchema.parse(head)).not.toThrow();
    expect(() => FactFileSchema.parse(facts)).not.toThrow();
    const bank = QuestionFileSchema.parse(questions);
    expect(new Set(bank.questions.map(({ kind }) => kind)).size).toBe(6);
    for (const asked of bank.questions) {
      if (asked.kind === 'number') expect(() => findFigure(bench, asked.answer)).not.toThrow();
    }
  });

  it('shows figures that can be worked out', () => {
    const shown = [...GUIDE.matchAll(/<Figure of="([^"]+)"/g)].map(([, of = '']) => of);
    expect(shown.length).toBeGreaterThan(2);
    for (const of of shown) expect(() => findFigure(bench, of), of).not.toThrow();
  });

  it('names every working, every ready plot and every part', () => {
    const missing = [...Object.keys(WORKINGS), ...READY_PLOTS, ...PART_LABELS].filter(
      (name) => !GUIDE.includes(`\`${name}\``),
    );
    expect(missing).toEqual([]);
  });

  it('shows a plot and dimensions that can be drawn', () => {
    const asked = {
      change: 'knife.along',
      from: 0,
      to: 14,
      of: ['knife.gapAtTable', 'knife.gapMax'],
      limits: ['gb.knife.gap'],
      title: 'The gap',
      alt: 'Two lines rise.',
    };
    expect(GUIDE).toContain("of={['knife.gapAtTable', 'knife.gapMax']}");
    expect(() => makePlot(bench, asked, loadLimitSets(), sayIn('en'))).not.toThrow();
    for (const id of ['blade.diameter', 'stock.thickness', 'insert.gapLeft']) {
      expect(GUIDE).toContain(`\`${id}\``);
      expect(isDimensionId(id)).toBe(true);
    }
  });
});
