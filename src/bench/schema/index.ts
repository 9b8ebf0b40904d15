export { type Bench, BenchSchema, type Blade, type Guard, type Knife } from './bench-schema.ts';
export { isPossible } from './impossible.ts';
export { describeProblem, type Problem } from './problem.ts';
export { readBench, withKnife } from './read-bench.ts';
