import { newId } from '../../src/records/index.ts';
import type { RunningSite } from './site.ts';
import type { World } from './world.ts';

/** Packs made on the running site, which keeps them in memory: by a trainer, an employer, and somebody else's employer. */
export type Packs = Readonly<Record<'ruths' | 'annas' | 'far', string>>;

async function makePack(site: RunningSite, cookie: string): Promise<string> {
  const id = newId();
  const day = new Date().toISOString().slice(0, 10);
  const form = { id, whom: 'everyone', bench: '', day, language: 'en', paper: 'a4' };
  const { origin } = site;
  const begun = await site.send('/pack', {
    method: 'POST',
    headers: { cookie, origin, 'content-type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams(form).toString(),
  });
  if (begun.status !== 303) throw new Error(`no pack was begun: ${begun.status}`);
  for (const until = Date.now() + 60_000; Date.now() < until; ) {
    const { body } = await site.send(`/api/packs/${id}`, { headers: { cookie } });
    const { state } = JSON.parse(body) as { state: string };
    if (state === 'ready') return id;
    if (state === 'failed') break;
    await new Promise((wake) => setTimeout(wake, 100));
  }
  throw new Error('the pack was not made');
}

export async function makePacks(
  site: RunningSite,
  { cookies }: Pick<World, 'cookies'>,
): Promise<Packs> {
  const [ruths, annas, far] = await Promise.all(
    [cookies.ruth, cookies.anna, cookies.farEmployer].map((cookie) => makePack(site, cookie)),
  );
  return { ruths: ruths ?? '', annas: annas ?? '', far: far ?? '' };
}
