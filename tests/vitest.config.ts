import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'tests/perf/**', 'node_modules/**'],
    // left to itself it keeps one core of two for nobody
    maxWorkers: 2,
    testTimeout: 30_000,
  },
});
