import { spawn } from 'node:child_process';
import { resolve } from 'node:path';

/**
 * Signs practicals on one device while everything goes wrong by chance, and prints what came of them:
 * `npm run faults -- 100 7` for a hundred rounds of seed 7. The site must have been built.
 */
const [rounds = '100', seed = '20261128'] = process.argv.slice(2);
if (![rounds, seed].every((one) => /^\d{1,9}$/.test(one))) {
  console.error('Usage: npm run faults -- ROUNDS SEED, both whole numbers.');
  process.exit(2);
}
const cli = resolve(import.meta.dirname, '../../node_modules/@playwright/test/cli.js');
const child = spawn(
  process.execPath,
  [
    cli,
    'test',
    '--config',
    'tests/playwright.config.ts',
    'practical-random-faults',
    '--retries',
    '0',
  ],
  { stdio: 'inherit', env: { ...process.env, FAULT_ROUNDS: rounds, FAULT_SEED: seed } },
);
child.once('exit', (code) => process.exit(code ?? 1));
