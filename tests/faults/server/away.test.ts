import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cluster, hasPostgres, makeDatabase, startCluster } from '../../helpers/postgres.ts';
import { type LoggedSite, startLogged } from '../../server/watch/running-site.ts';

const FIRST = {
  organisation: 'Alder Lane Joinery',
  name: 'Ruth Amsel',
  email: 'ruth.amsel@alderlane.example',
  password: 'ripping fence and riving knife',
};

/** What of a reply a person or a program sees. */
type Seen = { readonly status: number; readonly type: string; readonly text: string };

describe.skipIf(!hasPostgres())('the running site, whose database is stopped', () => {
  let cluster: Cluster;
  let site: LoggedSite;
  let cookie = '';
  const ask = (path: string, init: RequestInit = {}) =>
    fetch(`${site.url}${path}`, {
      ...init,
      redirect: 'manual',
      headers: { origin: site.url, cookie, ...init.headers },
    });
  const post = (path: string, form: Record<string, string>) =>
    ask(path, { method: 'POST', body: new URLSearchParams(form) });
  const see = async (reply: Response): Promise<Seen> => ({
    status: reply.status,
    type: reply.headers.get('content-type') ?? '',
    text: await reply.text(),
  });
  beforeAll(async () => {
    cluster = await startCluster();
    const { url } = await makeDatabase(cluster.url);
    site = await startLogged('empty', { DATABASE_URL: url, DATABASE_OWNER_URL: '' });
    const made = await post('/set-up', FIRST);
    cookie = made.headers
      .getSetCookie()
      .map((one) => one.split(';')[0])
      .join('; ');
    expect([made.status, cookie]).toEqual([303, expect.stringContaining('session_token=')]);
  }, 120_000);
  afterAll(async () => {
    await site?.remove();
    cluster?.stop();
  }, 60_000);

  it('answers 503 in one sentence, as a page and as JSON, and works again with the database', async () => {
    expect((await ask('/people/nobody')).status).toBe(404);
    expect((await ask('/api/people')).status).toBe(200);
    cluster.crash();
    const begun = Date.now();
    const replies = [
      await ask('/due'),
      await ask('/de/due'),
      await post('/invite', { role: 'trainee', name: 'Mira Holt' }),
      await post('/sign-in', { email: FIRST.email, password: FIRST.password }),
      await ask('/api/people'),
      await ask('/api/sittings', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{}',
      }),
      await ask('/api/health'),
    ];
    expect(Date.now() - begun).toBeLessThan(30_000);
    for (const reply of replies) {
      const path = new URL(reply.url).pathname;
      const { status, type, text } = await see(reply);
      expect(status, path).toBe(503);
      if (path.startsWith('/api/')) {
        expect(type, path).toContain('application/json');
        expect(JSON.parse(text).error.message, path).toMatch(/^[^.\n]+\.$/);
      } else {
        expect(type, path).toContain('text/html');
        expect(text, path).toMatch(/<h1>Signed to Saw<\/h1><p>[^.<]+\.<\/p>/);
      }
      expect(text, path).not.toMatch(/\n\s+at |ECONN|ENOENT|Error:|postgres|127\.0\.0\.1|\.ts\b/);
      expect(reply.headers.getSetCookie(), path).toEqual([]);
    }
    expect(site.printed()).not.toMatch(/Mira Holt|ruth\.amsel|session_token=/);

    cluster.start();
    let again = await ask('/api/people');
    for (let tries = 0; again.status !== 200 && tries < 40; tries++) {
      await new Promise((wake) => setTimeout(wake, 250));
      again = await ask('/api/people');
    }
    expect(again.status).toBe(200);
    expect(JSON.stringify(await again.json())).toContain(FIRST.name);
    const { email, password } = FIRST;
    expect((await post('/sign-in', { email, password })).status).toBe(303);
  }, 120_000);
});
