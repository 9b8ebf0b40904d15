import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEAR } from '../../src/accounts/limit/cost-of.ts';
import {
  addMember,
  cookieHeader,
  makeSaltingSite,
  setUp,
  signInAs,
  type TempSite,
} from '../accounts/temp-site.ts';
import { builtRoutes } from './routes.ts';
import { type RunningSite, runSiteOn } from './site.ts';

const MOST = 12;
const METRICS_TOKEN = '3f9c1b7e5a2d8046c1e7b95d20f4a83c';

/** The built site in a process of its own, with a trainer and an employer who are signed in. */
let made: TempSite;
let site: RunningSite;
let cookies: { first: string; employer: string };

beforeAll(async () => {
  made = await makeSaltingSite();
  const first = await setUp(made.site);
  const employer = await addMember(made.site, first, 'employer');
  cookies = {
    first: cookieHeader(await signInAs(made.site, first.email)),
    employer: cookieHeader(await signInAs(made.site, employer.email)),
  };
  await made.site.store.close();
  const env = {
    DATA_DIR: made.dataDir,
    PERSON_REQUESTS_A_MINUTE: `${MOST}`,
    ADDRESS_REQUESTS_A_MINUTE: `${MOST}`,
    METRICS_TOKEN,
  };
  site = await runSiteOn({ env });
}, 120_000);
afterAll(async () => {
  await site?.stop();
  await made?.remove();
});

const host = { host: '127.0.0.1' };
const statuses = async (path: string, times: number, headers: Record<string, string> = {}) => {
  const seen: number[] = [];
  for (let i = 0; i < times; i++) {
    seen.push((await site.send(path, { headers: { ...host, ...headers } })).status);
  }
  return seen;
};

describe('whoever asks too often', () => {
  it('is told to wait by nobody’s address, in their language and with every header; others go on', async () => {
    // the bucket fills again by one in five seconds: on a busy machine some more may pass
    const seen = await statuses('/sign-in', 3 * MOST);
    expect(seen.slice(0, MOST)).toEqual(Array.from({ length: MOST }, () => 200));
    expect(seen.filter((status) => status === 429).length).toBeGreaterThan(MOST);

    const german = await site.send('/de/sign-in', { headers: host });
    expect(german.status).toBe(429);
    expect(german.body).toContain('<p>Von Ihnen kamen in kurzer Zeit zu viele Anfragen');
    expect(Number(german.headers['retry-after'])).toBeGreaterThanOrEqual(1);
    expect(Number(german.headers['retry-after'])).toBeLessThanOrEqual(60);
    expect(german.headers['content-security-policy']).toContain("default-src 'none'");
    expect(german.headers['x-content-type-options']).toBe('nosniff');
    expect(german.headers['cache-control']).toBe('no-store');

    const asked = await site.send('/api/passkeys/ask', {
      method: 'POST',
      headers: {
        ...host,
        origin: site.origin.replace(/:\d+$/, ''),
        'content-type': 'application/json',
      },
      body: '{}',
    });
    expect(asked.status).toBe(429);
    expect(JSON.parse(asked.body)).toEqual({
      error: { path: '', message: expect.stringMatching(/^Too many requests came from you/) },
    });

    // a cookie that is nobody's does not make somebody of them
    const planted = { cookie: 'signed-to-saw.session_token=made.up' };
    expect(await statuses('/sign-in', 1, planted)).toEqual([429]);
    expect(await statuses('/my-sign-in', 1, { cookie: cookies.first })).toEqual([200]);
    // files and what asks for the site's health are not counted
    expect(await statuses('/lessons/', 2)).toEqual([200, 200]);
    expect(await statuses('/api/health', 2)).toEqual([200, 200]);
  }, 60_000);

  it('is told to wait as a person, and nobody else at the same address', async () => {
    const seen = await statuses('/my-sign-in', 3 * MOST, { cookie: cookies.first });
    expect(seen.filter((status) => status === 429).length).toBeGreaterThan(MOST);
    expect(await statuses('/my-sign-in', 2, { cookie: cookies.employer })).toEqual([200, 200]);

    const { body } = await site.send('/metrics', {
      headers: { ...host, authorization: `Bearer ${METRICS_TOKEN}` },
    });
    for (const by of ['person', 'address']) {
      const line = new RegExp(`^signed_to_saw_requests_limited_total\\{by="${by}"\\} (\\d+)`, 'm');
      expect(Number(line.exec(body)?.[1])).toBeGreaterThan(MOST);
    }
  }, 60_000);
});

it('every dear address is one of the site’s', () => {
  const routes = new Set(builtRoutes().map(({ pattern }) => pattern));
  for (const route of Object.keys(DEAR)) expect(routes).toContain(route);
});
