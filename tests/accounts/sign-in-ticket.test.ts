import { createHash } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { appendSigned, confirmSignIn, type Viewer } from '../../src/accounts/index.ts';
import { sayRefusal } from '../../src/components/say-refusal.ts';
import { isIdConflict } from '../../src/store/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { draftInvitation } from '../store/temp-store.ts';
import { addMember, granted, makeTempSite, PASSWORD, refused, setUp } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
});
afterEach(() => temp.remove());

const hashOf = (text: string) => createHash('sha256').update(text).digest('hex');
const STATEMENT = hashOf('what is on the screen');
const START = new Date('2026-03-03T09:30:00.000Z');
const later = (seconds: number) => new Date(START.getTime() + seconds * 1000);

const confirm = (viewer = trainer, password = PASSWORD) =>
  confirmSignIn(viewer, password, STATEMENT, null, temp.site, START);
const sign = (
  ticket: string,
  over: Partial<{ viewer: Viewer; statementHash: string; at: Date }> = {},
) =>
  appendSigned(
    over.viewer ?? trainer,
    draftInvitation({ org: trainer.org }),
    { ticket, statementHash: over.statementHash ?? STATEMENT },
    temp.site,
    over.at ?? later(10),
  );
const size = async () => (await temp.site.store.events({ org: trainer.org })).length;

describe('a fresh sign-in for one signature', () => {
  it('lets one event be entered, once', async () => {
    const before = await size();
    const { ticket, expires } = granted(await confirm());
    expect(expires).toBe(later(300).toISOString());
    expect(granted(await sign(ticket)).state).toBe('logged');
    expect(refused(await sign(ticket))).toMatchObject({
      status: 403,
      path: 'ticket',
      message: expect.stringMatching(/^Sign in again to sign this/),
    });
    expect(await size()).toBe(before + 1);
  });

  it('needs the right password', async () => {
    const refusal = refused(await confirm(trainer, 'wrong password'));
    expect(refusal).toMatchObject({
      status: 401,
      path: 'password',
      message: 'That is not your password, so nothing was signed.',
    });
    expect(sayRefusal(refusal, sayIn('de'))).toBe(
      'Das ist nicht Ihr Passwort, deshalb wurde nichts unterschrieben.',
    );
  });

  it('is held back by the same lock-out as the sign-in page', async () => {
    for (let i = 0; i < 5; i++) await confirm(trainer, 'wrong password');
    expect(refused(await confirm()).status).toBe(429);
  });

  it('does not serve another person', async () => {
    const other = await addMember(temp.site, trainer, 'trainer', 'Second');
    const before = await size();
    const { ticket } = granted(await confirm());
    expect(refused(await sign(ticket, { viewer: other })).status).toBe(403);
    expect(await size()).toBe(before);
    expect((await sign(ticket)).ok).toBe(true);
  });

  it('does not serve another statement', async () => {
    const { ticket } = granted(await confirm());
    expect(refused(await sign(ticket, { statementHash: hashOf('another') })).status).toBe(403);
  });

  it.each([
    [299.999, true],
    [300, false],
    [301, false],
  ])('after %d s still counts: %s', async (seconds, counts) => {
    const { ticket } = granted(await confirm());
    expect((await sign(ticket, { at: later(seconds) })).ok).toBe(counts);
  });

  it('is not needed again when the same event is sent again', async () => {
    const { ticket } = granted(await confirm());
    const draft = draftInvitation({ org: trainer.org });
    const proof = { ticket, statementHash: STATEMENT };
    const first = granted(await appendSigned(trainer, draft, proof, temp.site, later(1)));
    const again = granted(await appendSigned(trainer, draft, proof, temp.site, later(999)));
    expect(again).toEqual({ ...first, state: 'repeat' });
  });

  it('is not spent by an event that was refused', async () => {
    const { ticket } = granted(await confirm());
    const proof = { ticket, statementHash: STATEMENT };
    const known = draftInvitation({ org: trainer.org });
    await temp.site.store.append(known);
    const clash = { ...known, by: 'somebody' };
    const error = await appendSigned(trainer, clash, proof, temp.site, later(1)).catch((e) => e);
    expect(isIdConflict(error)).toBe(true);
    expect((await sign(ticket)).ok).toBe(true);
  });

  it('names what is signed by its hash, and the store keeps no ticket in the clear', async () => {
    const bad = await confirmSignIn(trainer, PASSWORD, 'no hash', null, temp.site);
    expect(refused(bad)).toMatchObject({ status: 400, path: 'statement' });
    const { ticket } = granted(await confirm());
    const rows = await temp.site.store.db.selectFrom('sign_in_ticket').selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(ticket);
  });
});
