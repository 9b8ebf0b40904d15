import { existsSync } from 'node:fs';

const USUAL_PLACES = [
  // the one without windows, which Playwright would fetch too: a test takes three quarters of the time in it
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

/** A Chromium of the system, or undefined to let Playwright use its own. `CHROMIUM` names another. */
export function findChromium(): string | undefined {
  const named = process.env['CHROMIUM'];
  return [...(named ? [named] : []), ...USUAL_PLACES].find((path) => existsSync(path));
}

/**
 * Software rendering, so that pictures are the same on every machine, and nothing that calls home.
 * A root user, as in a container, has no sandbox to use.
 */
export const CHROMIUM_FLAGS: readonly string[] = [
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  // pages are put together without the software that stands in for a graphics card; pictures of benches still use it
  '--disable-gpu-compositing',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
];
