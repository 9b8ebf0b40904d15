import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'tests/perf/**', 'node_modules/**'],
    testTimeout: 30_000,
  },
});
