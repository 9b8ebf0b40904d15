import { afterAll, expect, it } from 'vitest';
import { type LoggedSite, startLogged } from './running-site.ts';

let site: LoggedSite;
afterAll(() => site?.remove());

/** Thrown where nothing catches it, from outside our code, with all in its message that no log may hold. */
const SAID = 'Mira Holt, mira.holt@alderlane.example, from 203.0.113.77';
const FAULT = `process.on('SIGUSR2',()=>{throw new TypeError('${SAID}')})`;
const ADDRESS = /\b\d{1,3}(\.\d{1,3}){3}\b|\[?::1\b|::ffff:/i;

/** A client of the site behind a proxy on this machine, as its headers tell. */
const visit = (path: string, init: RequestInit = {}) =>
  fetch(site.url + path, {
    redirect: 'manual',
    ...init,
    headers: { 'x-forwarded-for': '198.51.100.4, 203.0.113.77', ...init.headers },
  });

it('an exception nobody caught is one line without a word of its own, and the site stops in good order', async () => {
  site = await startLogged('empty', {
    NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(FAULT)}`,
    SITE_URL: 'https://saw.alderlane.example',
    LOG_LEVEL: 'debug',
  });
  await visit('/');
  await visit('/nothing-here?from=203.0.113.77');
  await visit('/sign-in', {
    method: 'POST',
    headers: { origin: 'https://saw.alderlane.example' },
    body: new URLSearchParams({ email: 'mira.holt@alderlane.example', password: 'not this one' }),
  });
  site.signal('SIGUSR2');
  expect(await site.ended).toBe(1);
  const faults = site.lines.filter(({ event }) => event === 'error');
  expect(faults).toMatchObject([{ level: 'error', error: { kinds: ['TypeError'] } }]);
  // the line of a reply that was on its way may come after it
  const stops = site.lines.filter(({ event }) => event === 'stop');
  expect(stops).toMatchObject([{ signal: 'error' }]);
  expect(site.lines.filter(({ event }) => event === 'request')).toHaveLength(3);
  expect(site.printed()).not.toMatch(/Mira|Holt|mira\.holt/i);
  // of anybody who asked, and of the machine itself
  expect(site.printed()).not.toMatch(ADDRESS);
}, 60_000);
