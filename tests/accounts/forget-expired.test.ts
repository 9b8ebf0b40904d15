import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { confirmSignIn, signIn, type Viewer } from '../../src/accounts/index.ts';
import { makeTempSite, PASSWORD, requestWith, setUp, signInAs, viewerWith } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
});
afterEach(() => temp.remove());

describe('what no longer counts', () => {
  it('is dropped at the next sign-in, and what still counts is kept', async () => {
    const { db } = temp.site.store;
    const kept = await signInAs(temp.site, trainer.email);
    await signInAs(temp.site, trainer.email);
    const past = new Date(Date.now() - 2_000).toISOString();
    const ids = await db.selectFrom('session').select('id').orderBy('createdAt').execute();
    const last = ids.at(-1)?.id ?? '';
    await db.updateTable('session').set({ expiresAt: past }).where('id', '=', last).execute();
    const longAgo = new Date(Date.now() - 26 * 60 * 60 * 1000);
    await confirmSignIn(trainer, PASSWORD, 'a'.repeat(64), null, temp.site, longAgo);
    await confirmSignIn(trainer, PASSWORD, 'b'.repeat(64), null, temp.site);
    const wrong = { email: 'nobody@x.example', password: 'wrong password' };
    await signIn(requestWith(), wrong, null, temp.site, longAgo);

    await signInAs(temp.site, trainer.email);
    const sessions = await db.selectFrom('session').select('id').execute();
    expect(sessions.map((one) => one.id)).not.toContain(last);
    expect(sessions).toHaveLength(2);
    expect(await viewerWith(temp.site, kept)).not.toBeNull();
    const tickets = await db.selectFrom('sign_in_ticket').select('statementHash').execute();
    expect(tickets.map((one) => one.statementHash)).toEqual(['b'.repeat(64)]);
    const tries = await db.selectFrom('sign_in_try').select('lastAt').execute();
    expect(tries.filter((one) => Date.parse(one.lastAt) <= longAgo.getTime())).toEqual([]);
  });
});
