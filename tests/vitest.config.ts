import { defineConfig } from 'vitest/config';
import { keepCompiled } from './helpers/compile-cache.ts';
import { ON_BOTH_ENGINES } from './helpers/on-both-engines.ts';
import { hasPostgres, NO_POSTGRES } from './helpers/postgres.ts';

const CLUSTER = 'tests/helpers/one-cluster.ts';

if (!hasPostgres()) console.warn(NO_POSTGRES);

/** The files that open a site, once more with its tables in PostgreSQL. */
const onPostgresql = {
  extends: true as const,
  test: {
    name: 'postgresql',
    include: [...ON_BOTH_ENGINES],
    env: { TEST_STORE_ON: 'postgresql' },
    globalSetup: [CLUSTER],
    setupFiles: ['tests/helpers/on-postgresql.ts'],
    // they share nothing but modules, and reading those once more for each file is most of the time
    isolate: false,
  },
};

keepCompiled();

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    exclude: ['tests/e2e/**', 'tests/perf/**', 'node_modules/**'],
    // left to itself it keeps one core of two for nobody
    maxWorkers: 2,
    testTimeout: 30_000,
    projects: [
      {
        extends: true,
        test: { name: 'unit', include: ['tests/**/*.test.ts'], globalSetup: [CLUSTER] },
      },
      ...(hasPostgres() ? [onPostgresql] : []),
    ],
  },
});
