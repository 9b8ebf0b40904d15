import { defineConfig } from '@playwright/test';
import { keepCompiled } from './helpers/compile-cache.ts';
import { CHROMIUM_FLAGS, findChromium } from './helpers/find-chromium.ts';

const executablePath = findChromium();

keepCompiled();

export default defineConfig({
  testDir: './e2e',
  outputDir: '../test-results/browser',
  globalSetup: './helpers/site.ts',
  // each spec starts a site of its own on an empty store; two at once fill two cores
  workers: 2,
  fullyParallel: false,
  forbidOnly: true,
  // one more try, and the run says which tests needed it: two cores can be very slow for a moment
  retries: 1,
  timeout: 120_000,
  expect: { timeout: 15_000 },
  reporter: process.env['TEST_REPORT']
    ? [['line'], ['json', { outputFile: process.env['TEST_REPORT'] }]]
    : 'line',
  use: {
    // a worker would answer what a test means to answer itself; the tests of the worker let it in
    serviceWorkers: 'block',
    viewport: { width: 1280, height: 800 },
    launchOptions: {
      args: [...CHROMIUM_FLAGS],
      ...(executablePath === undefined ? {} : { executablePath }),
    },
  },
});
