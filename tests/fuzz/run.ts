import { fuzz } from './fuzz.ts';
import { fuzzSite } from './http.ts';

/**
 * `node tests/fuzz/run.ts [COUNT] [SEED] [FROM]`: spoils a hundred thousand files and reads them all.
 * `node tests/fuzz/run.ts http [COUNT] [SEED] [SECONDS]`: sends fifty thousand spoilt requests to the built site.
 * Exits 1 at the first file that is not refused in one sentence or graded, or after the first requests that were
 * answered with a fault of ours.
 */
const started = performance.now();
const seconds = () => ((performance.now() - started) / 1000).toFixed(1);

function fuzzFiles([count = '100000', seed = 'a hundred thousand', from = '0']: string[]): void {
  const counted = fuzz(seed, Number(count), Number(from));
  for (const [kind, { files, taken }] of Object.entries(counted)) {
    console.log(
      `${kind.padEnd(14)} ${String(files).padStart(7)} read, ${taken} of them still whole`,
    );
  }
  console.log(`nothing crashed in ${seconds()} s, seed "${seed}"`);
}

async function fuzzRequests([
  count = '50000',
  seed = 'fifty thousand',
  most,
]: string[]): Promise<void> {
  const { findings, ...counted } = await fuzzSite(
    seed,
    Number(count),
    most === undefined ? undefined : Number(most),
  );
  console.log(JSON.stringify(counted));
  for (const finding of findings) console.log(finding);
  console.log(`${findings.length} findings in ${seconds()} s, seed "${seed}"`);
  process.exitCode = findings.length === 0 ? 0 : 1;
}

const [first = '', ...others] = process.argv.slice(2);
if (first === 'http') await fuzzRequests(others);
else fuzzFiles(first === '' ? [] : [first, ...others]);
