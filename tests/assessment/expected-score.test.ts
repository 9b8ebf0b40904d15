import { describe, expect, it } from 'vitest';
import {
  expectedFind,
  type FindTask,
  gradeForm,
  makeForm,
  type Random,
  seedRandom,
  type Work,
} from '../../src/assessment/index.ts';
import { expectedFinding } from '../../src/assessment/plant/index.ts';
import { rulesFor } from '../helpers/exam.ts';

const rules = rulesFor('walk-and-name');
const { catalogue, estimate } = rules;

/** One simulated person at the end of training, drawn by lot from the same estimates. */
function sitOnce(task: FindTask, random: Random): Work {
  const hits = (percent: number) => random.fraction() * 100 < percent;
  const found = task.planted.filter((one) => hits(one.estimate)).map(({ fault }) => fault);
  const fooled = task.lookAlikes.filter((one) => hits(one.estimate)).map(({ like }) => like);
  const findings = [...found, ...fooled].map((id) => {
    const { part, remedies } = catalogue.byId.get(id)!;
    const wrong = (['stop-isolate', 'put-right', 'take-out-of-service', 'report'] as const).find(
      (remedy) => !remedies.includes(remedy),
    )!;
    const remedy = hits(estimate.find.remedy) ? remedies[0]! : wrong;
    return { part, fault: id, remedy, confidence: 'guess' as const };
  });
  return { find: { kind: 'find', actions: [], findings } };
}

describe('the expected score of a form', () => {
  it.each(['one', 'two', 'three'])(
    'is what 2,000 simulated people get when graded, seed %s',
    (seed) => {
      const form = makeForm(rules, seed);
      const task = form.tasks.find((one) => one.kind === 'find')!;
      const random = seedRandom(`people ${seed}`);
      const scores = Array.from(
        { length: 2000 },
        () => gradeForm({ form, work: sitOnce(task, random), rules }).score,
      );
      const mean = scores.reduce((sum, score) => sum + score, 0) / scores.length;
      const variance = scores.reduce((sum, score) => sum + (score - mean) ** 2, 0) / scores.length;
      const error = Math.sqrt(variance / scores.length);
      expect(Math.abs(mean - expectedFind(task, rules, 0))).toBeLessThan(4 * error);
    },
  );

  it('by hand: one fault of weight 4 found by half, with the remedy known by half', () => {
    // half of half earn all of it, half of half earn half: 0.25 * 100 + 0.25 * 50
    const faults = [{ weight: 4, estimate: 50 }];
    expect(expectedFinding({ faults, lookAlikes: [], remedy: 50 }, 0)).toBeCloseTo(37.5, 12);
    // and a look-alike of the same weight that half fall for takes all of it away from them
    const lookAlikes = [{ weight: 4, onFaultyPart: false, estimate: 50 }];
    expect(expectedFinding({ faults, lookAlikes, remedy: 50 }, 0)).toBeCloseTo(18.75, 12);
  });

  it('rises with how far a person is along', () => {
    const task = makeForm(rules, 'rise').tasks.find((one) => one.kind === 'find')!;
    const scores = [-20, -10, 0, 10, 20].map((shift) => expectedFind(task, rules, shift));
    expect(scores).toEqual([...scores].sort((a, b) => a - b));
  });
});
