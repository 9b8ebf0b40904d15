import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addressOf, plainPattern, standOf, subjectsOf } from './cells.ts';
import { testDoors } from './doors.ts';
import { EXPECTED } from './expected.ts';
import { openWorld } from './open-world.ts';
import { builtRoutes, type Route } from './routes.ts';
import type { Answer, RunningSite } from './site.ts';
import { VIEWERS, type ViewerName, type World } from './world.ts';

const routes = builtRoutes();
/**
 * What is another matter for another engine: a page in German asks the database what the English one asks, and the
 * rest ends before it. `ACCESS_WHOLE=yes` asks all of it on both.
 */
const isShort =
  process.env['TEST_STORE_ON'] === 'postgresql' && process.env['ACCESS_WHOLE'] === undefined;
const isAsked = ({ pattern }: Route) => !isShort || plainPattern(pattern) === pattern;
const onDemand = routes.filter((route) => !route.isPrerendered && isAsked(route));
const ahead = routes.filter(({ isPrerendered }) => isPrerendered);
const METHODS = isShort
  ? ['GET', 'POST', 'PUT']
  : ['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND'];

let world: World;
let site: RunningSite;
let close: () => Promise<void>;
let cells = 0;
beforeAll(async () => {
  ({ world, site, close } = await openWorld());
}, 120_000);
afterAll(async () => {
  console.log(`${cells} cells of the access matrix were tried`);
  await close();
});

const isApi = (pattern: string) => pattern.startsWith('/api/');
const isWrite = (method: string) => !['GET', 'HEAD', 'OPTIONS', 'TRACE'].includes(method);

function ask(route: Pick<Route, 'pattern'>, path: string, method: string, viewer: ViewerName) {
  const type = isApi(route.pattern) ? 'application/json' : 'application/x-www-form-urlencoded';
  const cookie = world.cookies[viewer];
  return site.send(path, {
    method,
    headers: {
      ...(cookie === '' ? {} : { cookie }),
      ...(isWrite(method) ? { origin: site.origin, 'content-type': type } : {}),
    },
    ...(isWrite(method) ? { body: isApi(route.pattern) ? '{}' : '' } : {}),
  });
}

/** What came back, in the words of the table. */
function wordOf({ status, headers }: Answer): string {
  if (status < 300 || status > 399) return String(status);
  const to =
    new URL(headers.location ?? '', 'http://x').pathname.replace(/^\/de(?=\/|$)/, '') || '/';
  return to === '/sign-in' && String(headers.location).includes('?next=') ? 'sign-in' : `to:${to}`;
}

/** What `Allow` names where the table has no row for a method (RFC 9110, 10.2.1). */
function allowFor(pattern: string): string | null {
  if (pattern.startsWith('/_')) return null;
  const named = Object.keys(EXPECTED[plainPattern(pattern)] ?? {});
  return [...named, ...(named.includes('GET') ? ['HEAD'] : [])].sort().join(', ');
}

/** The word the table has for a stand; `null` when it has none, which is a gap in the table. */
function expectedFor(pattern: string, method: string, stand: string): string | null {
  const rows = EXPECTED[plainPattern(pattern)];
  if (rows === undefined) return null;
  const row = rows[(method === 'HEAD' ? 'GET' : method) as 'GET'];
  if (row === undefined) return pattern.startsWith('/_') && method !== 'TRACE' ? '404|405' : '405';
  if (!row.includes('=')) return row;
  const columns = new Map(row.split(' ').map((one) => one.split('=') as [string, string]));
  // an address with a secret in it leads to the same place for everybody who has none
  return columns.get(stand) ?? (stand === 'colleague' ? columns.get('trainer') : null) ?? null;
}

/**
 * Who asks, and about what. A method that nothing at this address answers ends at the door, before anybody is looked
 * at, so a stranger and a trainer show it; HEAD is GET without its body.
 */
function reachOf(route: Route, method: string) {
  const subjects = subjectsOf(route.pattern);
  if (method === 'HEAD') return { viewers: ['nobody', 'tom', 'anna'] as const, subjects };
  const isAnswered = EXPECTED[plainPattern(route.pattern)]?.[method as 'GET'] !== undefined;
  return isAnswered
    ? { viewers: VIEWERS, subjects }
    : { viewers: ['nobody', 'ruth'] as const, subjects: subjects.slice(0, 1) };
}

async function eightAtATime<One>(all: readonly One[], act: (one: One) => Promise<void>) {
  const left = all.values();
  const work = async () => {
    for (const one of left) await act(one);
  };
  await Promise.all(Array.from({ length: 8 }, work));
}

/** The same words whoever's id it was: what differs by chance is taken out. */
const alike = ({ status, headers, body }: Answer, id: string): string =>
  [status, headers['content-type'], headers.location, body]
    .join('\n')
    .replaceAll(id, 'ID')
    .replace(/[0-9a-f]{8}-[0-9a-f-]{27}/g, 'ID')
    .replace(/\d\d:\d\d(:\d\d)?/g, 'TIME');

describe('the table', () => {
  it('has a row for every route of the built site, and none for a route that is not there', () => {
    const built = new Set(routes.map(({ pattern }) => plainPattern(pattern)));
    const missing = [...built].filter((pattern) => EXPECTED[pattern] === undefined);
    expect(missing, 'add these to tests/access/expected.ts').toEqual([]);
    expect(Object.keys(EXPECTED).filter((pattern) => !built.has(pattern))).toEqual([]);
    expect(routes.length).toBeGreaterThan(130);
  });

  it('names every method that a file of the site answers, and no other', () => {
    for (const { pattern, methods } of onDemand) {
      if (methods === null || methods.length === 0) continue;
      const named = Object.entries(EXPECTED[pattern] ?? {})
        .filter(([, row]) => row !== '404')
        .map(([method]) => method);
      expect(named.sort(), pattern).toEqual([...methods].sort());
    }
  });

  it('puts a real id into every address', () => {
    for (const route of onDemand.filter(({ pattern }) => !pattern.startsWith('/_'))) {
      const [subject = 'none'] = subjectsOf(route.pattern);
      expect(addressOf(route, subject, world), route.pattern).not.toContain('[');
    }
  });
});

describe('every route, method, viewer and owner', () => {
  it.each(METHODS)('%s is answered as the table says', { timeout: 240_000 }, async (method) => {
    const wrong: string[] = [];
    const before = await world.place.digest();
    // signing out ends the sessions the rest of the table needs: it has a test of its own below
    const asked = onDemand
      .filter(({ pattern }) => pattern !== '/sign-out' || method !== 'POST')
      .flatMap((route) => {
        const { viewers, subjects } = reachOf(route, method);
        return viewers.flatMap((viewer) => subjects.map((subject) => ({ route, viewer, subject })));
      });
    await eightAtATime(asked, async ({ route, viewer, subject }) => {
      const path = addressOf(route, subject, world);
      const answer = await ask(route, path, method, viewer);
      const stand = standOf(route.pattern, viewer, subject);
      const expected = expectedFor(route.pattern, method, stand);
      const found = wordOf(answer);
      if (expected === null || !expected.split('|').includes(found)) {
        wrong.push(`${method} ${path} for ${viewer} (${stand}): ${found}, not ${expected}`);
      }
      const { allow } = answer.headers;
      const allowed = allowFor(route.pattern);
      // TRACE ends at the door, before the address is looked at
      if (found === '405' && method !== 'TRACE' && allowed !== null && allow !== allowed) {
        wrong.push(`${method} ${path} is told ${allow}, not ${allowed}`);
      }
    });
    cells += asked.length;
    expect(wrong).toEqual([]);
    // a form or an interface that was told nothing does nothing
    if (isWrite(method)) {
      expect(await world.place.digest()).toEqual(before);
    }
  });

  it('the other workshop’s id is answered word for word like an id that never was', async () => {
    const wrong: string[] = [];
    for (const route of onDemand) {
      const subjects = subjectsOf(route.pattern);
      // an address with a secret in it belongs to no workshop: whoever has it may open it
      if (!subjects.includes('far') || /token/.test(route.pattern)) continue;
      for (const method of ['GET', 'POST', ...(route.methods?.includes('PUT') ? ['PUT'] : [])]) {
        for (const viewer of ['mira', 'ruth', 'dev', 'anna'] as const) {
          const [far, unknown] = await Promise.all(
            (['far', 'unknown'] as const).map(async (subject) => {
              const path = addressOf(route, subject, world);
              return alike(await ask(route, path, method, viewer), path);
            }),
          );
          cells += 1;
          if (far !== unknown)
            wrong.push(`${method} ${route.pattern} for ${viewer}: ${far} and ${unknown}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  }, 120_000);

  it.skipIf(isShort)(
    'what is built ahead shows itself to everybody and takes no input',
    async () => {
      const files = readdirSync('dist/client', { recursive: true, encoding: 'utf8' });
      for (const { pattern } of ahead) {
        const shape = new RegExp(
          `^${pattern
            .slice(1)
            .replace(/[.]/g, '\\.')
            .replace(/\[\w+\]/g, '[^/]+')}(/index\\.html|\\.html)?$`,
        );
        const file = files.find(
          (one) => shape.test(one.replaceAll('\\', '/')) && /\.\w+$/.test(one),
        );
        if (plainPattern(pattern) === '/404') continue;
        expect(file, pattern).toBeDefined();
        const path = `/${String(file).replace(/\/index\.html$/, '')}`;
        for (const viewer of ['nobody', 'mira', 'farTrainer'] as const) {
          expect((await ask({ pattern }, path, 'GET', viewer)).status, path).toBe(200);
          for (const method of ['POST', 'PUT', 'DELETE', 'PATCH']) {
            expect((await ask({ pattern }, path, method, viewer)).status, `${method} ${path}`).toBe(
              405,
            );
            cells += 1;
          }
        }
      }
    },
  );
});

describe.skipIf(isShort)('looking', () => {
  it('changes nothing: every GET, HEAD and OPTIONS leaves each table as it was', async () => {
    const before = await world.place.digest();
    expect(Object.keys(before).length).toBeGreaterThan(15);
    // that a link to share was opened is entered on purpose, with nobody's name
    const looked = onDemand.filter(({ pattern }) => !pattern.includes('/shared/'));
    const asked = looked.flatMap((route) => {
      const isEnglish = plainPattern(route.pattern) === route.pattern;
      const methods = isEnglish ? ['GET', 'HEAD', 'OPTIONS'] : ['GET'];
      return (['nobody', 'mira', 'ruth', 'anna'] as const).flatMap((viewer) =>
        subjectsOf(route.pattern).flatMap((subject) =>
          methods.map((method) => ({ route, viewer, subject, method })),
        ),
      );
    });
    await eightAtATime(asked, async ({ route, viewer, subject, method }) => {
      const path = addressOf(route, subject, world);
      const more = `${path}${path.includes('?') ? '&' : '?'}do=remove&move=return&kept=1`;
      await ask(route, more, method, viewer);
    });
    cells += asked.length;
    expect(await world.place.digest()).toEqual(before);
  }, 120_000);

  it('HEAD says what GET says, and nothing more', async () => {
    for (const route of onDemand) {
      const [subject = 'none'] = subjectsOf(route.pattern);
      const path = addressOf(route, subject, world);
      const head = await ask(route, path, 'HEAD', 'mira');
      expect(head.body, path).toBe('');
    }
  });
});

describe('the doors', () => {
  testDoors(() => ({ world, site }));
});

describe('signing out', () => {
  it('ends the session for every page, and for nobody else', async () => {
    const route = { pattern: '/sign-out' };
    const left = await ask(route, '/sign-out', 'POST', 'tom');
    expect(wordOf(left)).toBe('to:/');
    expect(wordOf(await ask({ pattern: '/my-book' }, '/my-book', 'GET', 'tom'))).toBe('sign-in');
    expect(wordOf(await ask({ pattern: '/my-book' }, '/my-book', 'GET', 'mira'))).toBe('200');
    cells += 3;
  });
});
