import { fuzz } from './fuzz.ts';

/**
 * `node tests/fuzz/run.ts [COUNT] [SEED] [FROM]`: spoils a hundred thousand files and reads them all.
 * Exits 1 at the first that is not refused in one sentence or graded.
 */
const [count = '100000', seed = 'a hundred thousand', from = '0'] = process.argv.slice(2);
const started = performance.now();
const counted = fuzz(seed, Number(count), Number(from));
for (const [kind, { files, taken }] of Object.entries(counted)) {
  console.log(`${kind.padEnd(14)} ${String(files).padStart(7)} read, ${taken} of them still whole`);
}
console.log(
  `nothing crashed in ${((performance.now() - started) / 1000).toFixed(1)} s, seed "${seed}"`,
);
