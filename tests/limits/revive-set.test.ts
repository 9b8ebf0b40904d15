import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureBench, readBench } from '../../src/bench/index.ts';
import { judge, reviveLimitSet } from '../../src/limits/index.ts';
import { loadLimitSets } from '../../src/store/content-files.ts';
import { anyBenchFile } from '../helpers/random-bench.ts';

const sets = [...loadLimitSets('content').values()];

describe('a limit set that went through JSON', () => {
  it.each(sets.map((set) => [set.id, set] as const))(
    '%s judges every bench as it did before',
    (_, set) => {
      const sent = JSON.parse(JSON.stringify(set)) as typeof set;
      const revived = reviveLimitSet(sent);
      fc.assert(
        fc.property(anyBenchFile, (file) => {
          const read = readBench(file);
          fc.pre(read.ok);
          if (read.ok)
            expect(judge(read.bench, measureBench(read.bench), revived)).toEqual(
              judge(read.bench, measureBench(read.bench), set),
            );
        }),
        { seed: 7, numRuns: 40 },
      );
    },
  );

  it('holds limits whose end hangs on the bench, which plain data cannot carry', () => {
    const hanging = sets.flatMap(({ limits }) =>
      limits.filter(
        ({ wanted }) =>
          wanted.kind === 'size' &&
          (typeof wanted.min === 'function' || typeof wanted.max === 'function'),
      ),
    );
    expect(hanging.length).toBeGreaterThan(0);
  });
});
