import { measureBench } from '../../src/bench/index.ts';
import { judge, type LimitSet, type Result, type Uncertainty } from '../../src/limits/index.ts';
import { loadFaultCatalogue, loadLimitSets } from '../../src/store/content-files.ts';
import { type BenchOverrides, makeBench } from './bench.ts';

/** The published sets; an organisation's own, should there be one on this machine, are left out. */
export const SETS = loadLimitSets('content', 'no-such-folder');
export const CATALOGUE = loadFaultCatalogue();

export function limitSet(id: string): LimitSet {
  const set = SETS.get(id);
  if (set === undefined) throw new Error(`no limit set ${id}`);
  return set;
}

/** One limit, by its id, against the sound bench with some fields changed. */
export function judgeOne(
  limit: string,
  overrides: BenchOverrides = {},
  uncertainty: Uncertainty = 0,
): Result {
  const bench = makeBench(overrides);
  const [set = ''] = limit.split('.');
  const results = judge(bench, measureBench(bench), limitSet(set), uncertainty);
  const found = results.find((result) => result.limit === limit);
  if (found === undefined) throw new Error(`no limit ${limit}`);
  return found;
}
