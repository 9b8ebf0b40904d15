import { readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { hasPostgres, sharedDatabase } from '../../helpers/postgres.ts';
import { type LoggedSite, startLogged } from './running-site.ts';

/**
 * What a running site connects to, told by a module that is loaded before it: every client socket, datagram and
 * look-up of a name goes through these functions of Node, whatever library asks.
 */
const SPY = `
import net from 'node:net';
import dns from 'node:dns';
import dgram from 'node:dgram';
import child from 'node:child_process';
import { syncBuiltinESMExports } from 'node:module';
const tell = (what) => process.stderr.write('SPY ' + what + '\\n');
const wrap = (on, name, say) => {
  const own = on[name];
  on[name] = function (...given) { tell(say(...given)); return own.apply(this, given); };
};
wrap(net.Socket.prototype, 'connect', (first, second) => {
  const to = Array.isArray(first) ? first[0] : first;
  const place = typeof to === 'object' ? to : { port: to, host: second };
  return 'connect ' + (place.path ?? (place.host ?? 'localhost') + ':' + place.port);
});
wrap(dgram.Socket.prototype, 'send', () => 'datagram');
for (const name of ['lookup', 'resolve', 'resolve4', 'resolve6']) wrap(dns, name, (host) => 'name ' + host);
for (const name of ['spawn', 'execFile', 'exec', 'fork']) wrap(child, name, (file) => 'program ' + file);
syncBuiltinESMExports();
tell('watching');
`;
const PAGES = resolve(import.meta.dirname, '../../../src/pages');
const FIRST = {
  organisation: 'Alder Lane Joinery',
  name: 'Ruth Amsel',
  email: 'ruth.amsel@alderlane.example',
  password: 'ripping fence and riving knife',
};
/** An address of a stranger, wherever a request has room for one. */
const ELSEWHERE = 'http://else.example:8123/';

let site: LoggedSite;
afterEach(() => site?.remove());

const paths = readdirSync(PAGES, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(astro|ts)$/.test(entry.name))
  .map((entry) => relative(PAGES, join(entry.parentPath, entry.name)).split(sep))
  .filter((parts) => !parts.some((part) => part.startsWith('_')))
  .map((parts) => `/${parts.join('/')}`.replace(/\.(astro|ts)$/, '').replace(/\/index$/, '/'))
  .map((path) => path.replace(/\[[^\]]+\]/g, 'x'));

/** Sets a workshop up and asks every route as its trainer. Returns what the site connected to meanwhile. */
async function walk(env: Record<string, string>): Promise<string[]> {
  site = await startLogged('empty', {
    NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(SPY)}`,
    ...env,
  });
  const query = `?${new URLSearchParams({ next: ELSEWHERE, url: ELSEWHERE, q: ELSEWHERE })}`;
  let cookie = '';
  const ask = async (path: string, init: RequestInit = {}) => {
    const headers = { origin: site.url, cookie, referer: ELSEWHERE, ...init.headers };
    const reply = await fetch(site.url + path, { redirect: 'manual', ...init, headers });
    await reply.arrayBuffer();
    return reply;
  };
  const made = await ask('/set-up', { method: 'POST', body: new URLSearchParams(FIRST) });
  cookie = made.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
  expect(cookie).toContain('session_token=');
  const json = { 'content-type': 'application/json' };
  const body = JSON.stringify({ url: ELSEWHERE, for: 'sign-in', person: ELSEWHERE });
  for (const path of paths.filter((one) => one !== '/sign-out')) {
    await ask(path + query);
    await ask(path, { method: 'POST', headers: json, body });
  }
  const told = site.printed().match(/^SPY .*$/gm) ?? [];
  expect(told).toContain('SPY watching');
  // its own address, to listen on: a number, which nobody is asked for
  const own = ['SPY watching', 'SPY name 127.0.0.1'];
  return [...new Set(told)].filter((one) => !own.includes(one)).sort();
}

describe('a running site', { timeout: 120_000 }, () => {
  it('on SQLite connects to nobody, whatever address it is given', async () => {
    expect(await walk({})).toEqual([]);
  });

  it.skipIf(!hasPostgres())('on PostgreSQL connects to its database alone', async () => {
    const { url, remove } = await sharedDatabase();
    const { hostname, port } = new URL(url);
    const told = await walk({ DATABASE_URL: url, DATABASE_OWNER_URL: '' });
    const names = told.filter((one) => one === `SPY name ${hostname}`);
    expect(told.filter((one) => !names.includes(one))).toEqual([`SPY connect ${hostname}:${port}`]);
    await site.remove();
    await remove();
  });
});
