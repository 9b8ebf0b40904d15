import { globSync } from 'node:fs';
import { matchesGlob } from 'node:path';
import { defineConfig } from 'vitest/config';
import { keepCompiled } from './helpers/compile-cache.ts';
import { ON_BOTH_ENGINES } from './helpers/on-both-engines.ts';
import { hasPostgres, NO_POSTGRES } from './helpers/postgres.ts';

const ROOT = new URL('..', import.meta.url).pathname;
/** What a hash costs is no matter of most tests. */
const HASH_ONCE = 'tests/helpers/hash-once.ts';
const CLUSTER = 'tests/helpers/one-cluster.ts';

if (!hasPostgres()) console.warn(NO_POSTGRES);

/**
 * Files that share their modules with the one before them: reading those anew for each file is a third of the whole time.
 * They leave no trace in a module; a file that puts something in the place of a global stands alone.
 */
const TOGETHER: readonly string[] = [
  ...['assessment', 'bench', 'book', 'competence', 'components', 'content', 'drawing', 'geometry'],
  ...['grading', 'house', 'limits', 'logging', 'oracles', 'pages', 'panels', 'scene', 'styles'],
  'words',
].map((folder) => `tests/${folder}/**/*.test.ts`);
const ALONE: readonly string[] = [
  'tests/panels/learning-book.test.ts',
  'tests/panels/trial-cut.test.ts',
  'tests/words/words.test.ts',
];

/** Every test file of the unit tests that no pattern names, so that none is left out of both. */
function restOf(patterns: readonly string[]): string[] {
  const files = globSync('tests/**/*.test.ts', { cwd: ROOT }).map((f) => f.replaceAll('\\', '/'));
  return files.filter(
    (file) => ALONE.includes(file) || !patterns.some((pattern) => matchesGlob(file, pattern)),
  );
}

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
    root: ROOT,
    exclude: ['tests/e2e/**', 'tests/perf/**', 'node_modules/**'],
    // left to itself it keeps one core of two for nobody
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 30_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: [...TOGETHER, ...ON_BOTH_ENGINES],
          exclude: [...ALONE],
          globalSetup: [CLUSTER],
          setupFiles: [HASH_ONCE],
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'alone',
          include: restOf([...TOGETHER, ...ON_BOTH_ENGINES]),
          exclude: [],
          globalSetup: [CLUSTER],
          setupFiles: [HASH_ONCE],
        },
      },
      ...(hasPostgres() ? [onPostgresql] : []),
    ],
  },
});
