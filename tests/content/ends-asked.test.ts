import { describe, expect, it } from 'vitest';
import { type Bench, measureBench } from '../../src/bench/index.ts';
import { endsAsked } from '../../src/components/lesson/ends-asked.ts';
import { judgeLimit, type Limit } from '../../src/limits/index.ts';
import { loadBenches, loadLimitSets } from '../../src/store/content-files.ts';

const bench = loadBenches().get('the-place') as Bench;
const find = (set: string, id: string) =>
  loadLimitSets()
    .get(set)
    ?.limits.find((one) => one.id === id) as Limit;

describe('a limit told in a sentence', () => {
  // oracle: HSE EH40, 5 mg/m3 for softwood dust; the dust of this bench is mixed, so 3 is in force
  it('has its figure where it is not in force', () => {
    const softwood = find('gb', 'gb.dust.softwood');
    expect(judgeLimit(softwood, bench, measureBench(bench)).max).toBeNull();
    expect(endsAsked(softwood, bench, measureBench(bench))).toEqual({ min: null, max: 5 });
  });

  // oracle: HSE saw bench page, the last 300 mm, or the whole cut of a shorter piece
  it('has an end that hangs on the bench as the bench has it', () => {
    const last = find('gb', 'gb.stick.last');
    const short = { ...bench, job: { ...bench.job, stock: { ...bench.job.stock, length: 250 } } };
    expect(endsAsked(last, bench, measureBench(bench)).min).toBe(300);
    expect(endsAsked(last, short, measureBench(short)).min).toBe(250);
  });
});
