import { execFile } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { DEMO_PASSWORD } from '../../helpers/site.ts';
import { readOpenMetrics } from './read-open-metrics.ts';
import { type LoggedSite, startLogged } from './running-site.ts';

/**
 * A walk over every page and interface of the site, as nobody and as a trainer, with names, addresses,
 * passwords, tokens and ids wherever a request has room for them. None of them may be in the log.
 */
const PAGES = resolve(import.meta.dirname, '../../../src/pages');
const BUILT = resolve(import.meta.dirname, '../../../dist/client');
const TOKEN = '0123456789abcdef0123456789abcdef';

let site: LoggedSite;
/** What each reply of the walk told caches. */
const told: { path: string; cache: string; etag: string | null; cookie: boolean }[] = [];
beforeAll(async () => {
  site = await startLogged('demo', { LOG_LEVEL: 'debug', METRICS_TOKEN: TOKEN });
}, 120_000);
afterAll(() => site?.remove());

/** Every address pattern there is a page file for. */
const patterns = readdirSync(PAGES, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(astro|ts)$/.test(entry.name))
  .map((entry) => relative(PAGES, join(entry.parentPath, entry.name)).split(sep))
  .filter((parts) => !parts.some((part) => part.startsWith('_')))
  .map((parts) => `/${parts.join('/')}`.replace(/\.(astro|ts)$/, '').replace(/\/index$/, '/'));

function readSecrets(data: string) {
  const store = new DatabaseSync(join(data, 'store.sqlite'), { readOnly: true });
  const people = store.prepare('select id, name, email from user').all();
  const tokens = store.prepare('select token from session').all();
  store.close();
  return {
    people: people.map(({ id, name, email }) => ({
      id: String(id),
      name: String(name),
      email: String(email),
    })),
    tokens: tokens.map(({ token }) => String(token)),
  };
}

async function signIn(
  email: string,
  password: string,
): Promise<{ status: number; cookie: string }> {
  const reply = await fetch(`${site.url}/sign-in`, {
    method: 'POST',
    redirect: 'manual',
    headers: { origin: site.url },
    body: new URLSearchParams({ email, password }),
  });
  const cookie = reply.headers.getSetCookie().map((one) => one.split(';')[0]);
  return { status: reply.status, cookie: cookie.join('; ') };
}

it('a walk over every route leaves one line for each request, and nothing of anybody in it', async () => {
  const { people } = readSecrets(site.data);
  const [person] = people;
  const trainer = people.find(({ email }) => email.startsWith('ruth'));
  if (!person || !trainer) throw new Error('the invented workshop is empty');
  const wrong = 'my-password-that-is-wrong';
  expect((await signIn(trainer.email, wrong)).status).toBe(401);
  const { status, cookie } = await signIn(trainer.email, DEMO_PASSWORD);
  expect(status).toBe(303);

  let sent = 2;
  const ids: string[] = [];
  const ask = async (path: string, init: RequestInit = {}) => {
    const reply = await fetch(site.url + path, { redirect: 'manual', ...init });
    await reply.arrayBuffer();
    sent += 1;
    told.push({
      path: path.split('?', 1)[0] ?? '',
      cache: reply.headers.get('cache-control') ?? '',
      etag: reply.headers.get('etag'),
      cookie: reply.headers.has('set-cookie'),
    });
    ids.push(reply.headers.get('x-request-id') ?? '');
    return reply.status;
  };
  const query = `?${new URLSearchParams({ q: person.name, next: `/people/${person.id}` })}`;
  expect(patterns.length).toBeGreaterThan(60);
  for (const pattern of patterns) {
    const path = pattern.replace(/\[[^\]]+\]/g, person.id);
    await ask(path + query);
    await ask(`/de${path}`, { headers: { cookie } });
    await ask(path, {
      method: 'POST',
      headers: { cookie, origin: site.url, 'content-type': 'application/json' },
      body: JSON.stringify({ name: person.name, email: person.email, about: person.id }),
    });
  }
  for (const name of [person.name, person.email, person.id]) {
    await ask(`/${encodeURIComponent(name)}`);
    await ask('/', { headers: { 'user-agent': name, referer: `${site.url}/people/${name}` } });
    await ask('/my-book', { method: 'POST', headers: { origin: `http://${person.id}.example` } });
  }
  await new Promise((resolve) => setTimeout(resolve, 200));

  const requests = site.lines.filter(({ event }) => event === 'request');
  expect(requests).toHaveLength(sent);
  expect(new Set(requests.map(({ request }) => request)).size).toBe(sent);
  const known = new Set(requests.map(({ request }) => request));
  expect(ids.filter((id) => !known.has(id))).toEqual([]);

  const { tokens } = readSecrets(site.data);
  const secrets = [
    wrong,
    DEMO_PASSWORD,
    TOKEN,
    ...cookie.split('; ').flatMap((one) => [one, one.slice(one.indexOf('=') + 1)]),
    ...tokens,
    ...people.flatMap(({ id, name, email }) => [id, name, encodeURIComponent(name), email]),
    ...people.flatMap(({ name }) => name.split(' ')),
  ];
  expect(secrets.length).toBeGreaterThan(30);
  const printed = site.printed();
  expect(secrets.filter((secret) => printed.includes(secret))).toEqual([]);
  expect(printed).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-/i);
  expect(printed).not.toMatch(/127\.0\.0\.1|alderlane|\?/);

  // what can be told instead: patterns
  const routes = new Set(requests.map(({ route }) => route));
  for (const route of ['/people/[id]', '/de/people/[id]', '/sign-in', '/lessons/', '(none)']) {
    expect(routes, route).toContain(route);
  }
}, 120_000);

it('the metrics of that walk hold patterns and classes alone, and need their token', async () => {
  const ask = (headers: Record<string, string> = {}) => fetch(`${site.url}/metrics`, { headers });
  expect((await ask()).status).toBe(401);
  expect((await ask({ authorization: `Bearer ${TOKEN.replace('0', '1')}` })).status).toBe(401);
  const reply = await ask({ authorization: `Bearer ${TOKEN}` });
  expect(reply.headers.get('content-type')).toBe(
    'application/openmetrics-text; version=1.0.0; charset=utf-8',
  );
  const text = await reply.text();
  const read = readOpenMetrics(text);
  const labels = [...read.values()].flatMap(({ samples }) => samples.map((one) => one.labels));
  const names = new Set(labels.flatMap((one) => Object.keys(one)));
  expect([...names].sort()).toEqual([
    'by',
    'kind',
    'le',
    'method',
    'route',
    'share',
    'status',
    'version',
  ]);
  const routes = new Set(labels.flatMap(({ route }) => route ?? []));
  for (const route of routes) expect(route).toMatch(/^(\(.+\)|\/[a-z0-9/.[\]-]*)$/);
  expect(routes.size).toBeLessThan(250);
  expect(text).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-/);
  expect(read.get('signed_to_saw_sign_ins_refused')?.samples[0]?.value).toBe(1);
});

it('says whether it is ready, to anybody, and nothing else', async () => {
  const reply = await fetch(`${site.url}/api/ready`);
  expect(reply.status).toBe(200);
  expect(reply.headers.get('cache-control')).toBe('no-store');
  expect(await reply.json()).toEqual({
    ready: true,
    checks: { running: 'ok', store: 'ok', log: 'ok', tables: 'ok', key: 'ok', disk: 'ok' },
  });
});

/** Whether the site was built with a file for this path. */
const isBuilt = (path: string): boolean =>
  existsSync(join(BUILT, path, 'index.html')) ||
  (/\.\w+$/.test(path) && existsSync(join(BUILT, path)));

it('lets an edge keep what was built, and nothing that was made for somebody', async () => {
  expect(told.length).toBeGreaterThan(200);
  // what a cache may keep was built ahead, the same for everybody, and can be asked for again by its etag
  const kept = told.filter(({ cache }) => !cache.includes('no-store'));
  expect(kept.length).toBeGreaterThan(10);
  const wrong = kept.filter(
    // the verifier is one file for everybody, sent with a policy of its own
    ({ path, cache, etag, cookie }) =>
      cookie ||
      (path !== '/verifier.html' && (!isBuilt(path) || cache !== 'public, no-cache' || !etag)),
  );
  expect(wrong).toEqual([]);

  const asset = readdirSync(join(BUILT, '_astro')).find((name) => name.endsWith('.js'));
  const first = await fetch(`${site.url}/_astro/${asset}`);
  expect(first.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  const again = await fetch(`${site.url}/lessons/`, {
    headers: { 'if-none-match': (await fetch(`${site.url}/lessons/`)).headers.get('etag') ?? '' },
  });
  expect(again.status).toBe(304);
  expect((await again.arrayBuffer()).byteLength).toBe(0);
});

it('can be backed up, restored, audited and started again from that while it runs', async () => {
  const drill = resolve(import.meta.dirname, '../../../src/cli/drill.ts');
  const { stdout } = await promisify(execFile)(process.execPath, [drill, '--data', site.data]);
  const count = 'signed_to_saw_log_events';
  const metrics = await fetch(`${site.url}/metrics`, {
    headers: { authorization: `Bearer ${TOKEN}` },
  });
  const [, events = ''] = new RegExp(`^${count} (\\d+)$`, 'm').exec(await metrics.text()) ?? [];
  expect(Number(events)).toBeGreaterThan(15);
  const time = String.raw`[\d.]+ m?s`;
  expect(stdout).toMatch(
    new RegExp(
      `^backup +${time}  ${events} events, .*\ndigests +${time} .*\ncopy +${time}\naudit +${time} .*\nstart +${time}  /api/health ok, ${events} events\nThe drill worked, in ${time}\\.\n$`,
    ),
  );
}, 120_000);
