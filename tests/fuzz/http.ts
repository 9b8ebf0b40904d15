import { spawnSync } from 'node:child_process';
import { seedRandom } from '../../src/assessment/index.ts';
import { addressOf, plainPattern, subjectsOf } from '../access/cells.ts';
import { openWorld } from '../access/open-world.ts';
import { builtRoutes, type Route } from '../access/routes.ts';
import type { Answer, RunningSite } from '../access/site.ts';
import { VIEWERS, type World } from '../access/world.ts';
import { spoilText, spoilValue } from './mutate.ts';
import { type Form, formsIn, jsonBodies } from './skeletons.ts';

type Random = ReturnType<typeof seedRandom>;
export type HttpFuzz = {
  readonly requests: number;
  readonly byStatus: Readonly<Record<string, number>>;
  /** routes that were reached, of how many */
  readonly reached: number;
  readonly routes: number;
  /** ms, the slowest reply */
  readonly slowest: number;
  readonly findings: readonly string[];
  readonly stillSignedIn: number;
};

const STRANGE: readonly string[] = [
  '',
  ' ',
  '\0',
  'a\0b',
  '\u202e\u0000\ufffe',
  '\ud800',
  'İıſß',
  '𝔘𝔫𝔦'.repeat(50),
  'x'.repeat(5_000),
  '9999-12-31',
  '0000-01-01',
  '2026-02-30',
  '-1',
  '1e308',
  'NaN',
  '0x10',
  '99999999999999999999',
  "' or 1=1 --",
  '"><script>alert(1)</script>',
  '../../../../etc/passwd',
  '%00',
  '%',
  '__proto__',
  'constructor',
  '[object Object]',
  '{"a":[1,2',
  'javascript:alert(1)',
  '//evil.example',
  '\\\\evil.example',
  '\r\nset-cookie: a=b',
  '&a *a !!js/function',
];
const QUERIES = (
  'do bench person day show names set next kept group test count work state move copy added ' +
  'q id signoff at until from kind paper limits blade chipForce closing page sort as done'
).split(' ');

const strange = (random: Random, world: World): string => {
  const ids = Object.values(world.things).flatMap((things) => Object.values(things));
  return random.whole(0, 3) === 0 ? random.pick(ids) : random.pick(STRANGE);
};

function pathOf(route: Route, random: Random, world: World): string {
  const real = addressOf(route, random.pick(subjectsOf(route.pattern)), world);
  const isOdd = route.pattern.includes('[') && random.whole(0, 3) === 0;
  const path = isOdd
    ? route.pattern.replace(/\[\w+\]/g, encodeURIComponent(strange(random, world).toWellFormed()))
    : real;
  if (random.whole(0, 2) > 0) return path;
  const query = Array.from({ length: random.whole(1, 6) }, () => {
    const value = strange(random, world).toWellFormed();
    return `${random.pick(QUERIES)}=${random.whole(0, 9) === 0 ? '%E0%A4%A' : encodeURIComponent(value)}`;
  }).join('&');
  return `${path}${path.includes('?') ? '&' : '?'}${query}`.slice(0, 12_000);
}

function formBody(forms: readonly Form[], random: Random, world: World): string {
  const fields = forms.length === 0 ? [] : [...random.pick(forms)];
  for (let left = random.whole(0, 4); left > 0; left--) {
    const at = random.whole(0, Math.max(0, fields.length - 1));
    const name = fields[at]?.[0] ?? random.pick(QUERIES);
    switch (random.whole(0, 3)) {
      case 0:
        fields.splice(at, 1);
        break;
      case 1:
        // the same name again: a list where a text is meant
        fields.push([name, strange(random, world)]);
        break;
      default:
        fields[at] = [name, strange(random, world)];
    }
  }
  return new URLSearchParams(
    fields.map(([name, value]) => [name, value.toWellFormed()]),
  ).toString();
}

function jsonBody(skeleton: unknown, random: Random): string {
  const spoilt = random.whole(0, 9) === 0 ? skeleton : spoilValue(skeleton ?? { id: 'x' }, random);
  const text =
    JSON.stringify(spoilt, (_, value) => (typeof value === 'bigint' ? Number(value) : value)) ?? '';
  return random.whole(0, 7) === 0 ? spoilText(text, random) : text;
}

/** What no reply may hold or be, as a sentence, or null. */
function whyWrong({ status, body, took }: Answer): string | null {
  if (status >= 500) return `answered ${status}`;
  if (/\n\s+at .+:\d+:\d+|node:internal|\/dist\/server\/|SQLITE_|sqlite3/i.test(body)) {
    return 'told of the inside';
  }
  return took > 5_000 ? `took ${Math.round(took)} ms` : null;
}

async function readForms(world: World, site: RunningSite, routes: readonly Route[]) {
  const forms = new Map<string, Form[]>();
  for (const route of routes.filter(({ type }) => type === 'page')) {
    for (const viewer of ['nobody', 'mira', 'ruth', 'anna'] as const) {
      for (const subject of subjectsOf(route.pattern).slice(0, 2)) {
        const { body } = await site.send(addressOf(route, subject, world), {
          headers: { cookie: world.cookies[viewer] },
        });
        const known = forms.get(plainPattern(route.pattern)) ?? [];
        forms.set(plainPattern(route.pattern), [...known, ...formsIn(body)]);
      }
    }
  }
  return forms;
}

/**
 * Sends `count` spoilt requests to the built site in a process of its own, over every route and as everybody. The same
 * seed sends the same requests, up to the ids of the world they are made in. Ends after `seconds` in any case, and says how many
 * were sent.
 */
export async function fuzzSite(seed: string, count: number, seconds = 7_200): Promise<HttpFuzz> {
  const { world, site, close } = await openWorld();
  try {
    return await sendAll({ world, site, seed, count, until: Date.now() + seconds * 1000 });
  } finally {
    await close();
  }
}

type Run = { world: World; site: RunningSite; seed: string; count: number; until: number };

async function sendAll({ world, site, seed, count, until }: Run): Promise<HttpFuzz> {
  const routes = builtRoutes().filter(
    ({ isPrerendered, pattern }) => !isPrerendered && !pattern.startsWith('/_'),
  );
  const english = routes.filter(({ pattern }) => plainPattern(pattern) === pattern);
  const forms = await readForms(world, site, english);
  const bodies = await jsonBodies(world, site);
  const findings: string[] = [];
  const byStatus: Record<string, number> = {};
  const reached = new Set<string>();
  let slowest = 0;
  let next = 0;
  const work = async () => {
    while (next < count && findings.length < 40 && Date.now() < until) {
      const number = next++;
      const random = seedRandom(`${seed} ${number}`);
      const route = random.pick(routes);
      const isApi = route.pattern.startsWith('/api/');
      const usual = route.methods ?? ['GET', 'POST', 'POST', 'POST'];
      const method =
        random.whole(0, 19) === 0 ? random.pick(['HEAD', 'DELETE', 'PUT']) : random.pick(usual);
      // leaving would end the sessions of those who still have requests to send
      const isLeaving = /sign-out|invitation|my-sign-in/.test(route.pattern) && method !== 'GET';
      const viewer = isLeaving
        ? random.pick(['nobody', 'farEmployer'] as const)
        : random.pick(VIEWERS);
      const isBodied = !['GET', 'HEAD'].includes(method);
      const plain = plainPattern(route.pattern);
      const type = isApi ? 'application/json' : 'application/x-www-form-urlencoded';
      const path = pathOf(route, random, world);
      const body = isApi
        ? jsonBody(bodies[plain], random)
        : formBody(forms.get(plain) ?? [], random, world);
      const answer = await site
        .send(path, {
          method,
          headers: {
            cookie: world.cookies[viewer],
            'x-language': random.pick(['en', 'de', 'xx']),
            ...(isBodied ? { origin: site.origin, 'content-type': type } : {}),
          },
          ...(isBodied ? { body } : {}),
        })
        .catch((error: Error) => ({ status: 599, headers: {}, body: error.message, took: 0 }));
      byStatus[answer.status] = (byStatus[answer.status] ?? 0) + 1;
      reached.add(route.pattern);
      slowest = Math.max(slowest, answer.took);
      const wrong = whyWrong(answer);
      if (wrong !== null) {
        findings.push(
          `request ${number} of seed "${seed}": ${method} ${path} as ${viewer} ${wrong}; sent ${body.slice(0, 300)}`,
        );
      }
    }
  };
  // many at once are quicker to send; a few leave each reply its own time on a busy machine
  await Promise.all(Array.from({ length: count > 5_000 ? 8 : 2 }, work));
  if (!site.isAlive()) findings.push('the site has ended');
  const here = await Promise.all(
    VIEWERS.map((viewer) =>
      site.send('/api/people/me', { headers: { cookie: world.cookies[viewer] } }),
    ),
  );
  await site.stop();
  const audit = auditOf(world);
  if (audit !== null) findings.push(audit);
  return {
    requests: next,
    byStatus,
    reached: reached.size,
    routes: routes.length,
    slowest: Math.round(slowest),
    findings,
    stillSignedIn: here.filter(({ body }) => body !== 'null').length,
  };
}

/** Reads the whole log back by the site's own audit; what it found wrong, or null. */
function auditOf({ place }: World): string | null {
  // without a folder it reads the database it is told of
  const folder = place.database === null ? ['--data', place.dataDir] : [];
  const run = spawnSync(process.execPath, ['src/cli/audit.ts', ...folder], {
    env: { ...process.env, ...place.env },
    encoding: 'utf8',
  });
  return run.status === 0 ? null : `the log does not hold: ${run.stdout}${run.stderr}`;
}
