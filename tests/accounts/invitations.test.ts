import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  acceptInvitation,
  invitationsOf,
  invite,
  peopleOf,
  type Role,
  readInvitation,
  type Viewer,
} from '../../src/accounts/index.ts';
import {
  addMember,
  granted,
  makeTempSite,
  PASSWORD,
  refused,
  setUp,
  tokenOf,
} from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
});
afterEach(() => temp.remove());

const MIRA = { name: 'Mira Example', email: 'mira@x.example', password: PASSWORD };
const inviteMira = async (role: Role = 'trainee', now?: Date) =>
  granted(await invite(trainer, { role, name: 'Mira' }, temp.site, now));

describe('an invitation', () => {
  it('carries at least 128 random bits, of which the store keeps only the hash', async () => {
    const { path } = await inviteMira();
    const token = tokenOf(path);
    expect(path).toBe(`/invitation/${token}`);
    expect(Buffer.from(token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
    const rows = await temp.site.store.db.selectFrom('invitation').selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(token);
    const events = await temp.site.store.events({ org: trainer.org });
    expect(JSON.stringify(events)).not.toContain(token);
    expect(tokenOf((await inviteMira()).path)).not.toBe(token);
  });

  it('shows what it offers as often as it is opened, and gives the role it was made for', async () => {
    const { path, expires } = await inviteMira('employer');
    const offer = { organisation: 'Test Shop', role: 'employer', name: 'Mira', expires };
    expect(granted(await readInvitation(tokenOf(path), temp.site))).toEqual(offer);
    expect(granted(await readInvitation(tokenOf(path), temp.site))).toEqual(offer);
    const withRole = { ...MIRA, role: 'trainer' };
    granted(await acceptInvitation(tokenOf(path), withRole, temp.site));
    const people = await peopleOf(trainer.org, temp.site);
    expect(people.find((one) => one.name === 'Mira Example')?.role).toBe('employer');
  });

  it('works once', async () => {
    const token = tokenOf((await inviteMira()).path);
    granted(await acceptInvitation(token, MIRA, temp.site));
    const second = await acceptInvitation(token, { ...MIRA, email: 'b@x.example' }, temp.site);
    expect(refused(second)).toMatchObject({
      status: 410,
      path: '',
      message: 'This invitation was already used; sign in, or ask your trainer for a new one.',
    });
    expect(refused(await readInvitation(token, temp.site)).status).toBe(410);
  });

  it('works once even when two people use it at the same moment', async () => {
    const token = tokenOf((await inviteMira()).path);
    const both = await Promise.all([
      acceptInvitation(token, MIRA, temp.site),
      acceptInvitation(token, { ...MIRA, email: 'b@x.example' }, temp.site),
    ]);
    expect(both.filter((one) => one.ok)).toHaveLength(1);
    expect(await peopleOf(trainer.org, temp.site)).toHaveLength(2);
  });

  it.each([
    [-1, true],
    [0, false],
    [1, false],
  ])('%i ms after its seven days are over: open is %s', async (ms, open) => {
    const made = new Date('2026-03-03T09:30:00.000Z');
    const { path, expires } = await inviteMira('trainee', made);
    expect(expires).toBe('2026-03-10T09:30:00.000Z');
    const then = new Date(Date.parse(expires) + ms);
    const outcome = await acceptInvitation(tokenOf(path), MIRA, temp.site, then);
    expect(outcome.ok).toBe(open);
    if (!outcome.ok) {
      expect(outcome.refusal.message).toBe(
        'This invitation has expired: a link works for 7 days; ask your trainer for a new one.',
      );
    }
  });

  it('that nobody made is not known', async () => {
    for (const token of ['', 'x', 'a'.repeat(43)]) {
      expect(refused(await readInvitation(token, temp.site))).toMatchObject({
        status: 404,
        message: expect.stringMatching(/not known/),
      });
    }
  });

  it('is not used up by a form that was refused', async () => {
    const token = tokenOf((await inviteMira()).path);
    const short = await acceptInvitation(token, { ...MIRA, password: 'short' }, temp.site);
    expect(refused(short).message).toBe('password must be at least 12 characters.');
    const taken = await acceptInvitation(token, { ...MIRA, email: ' FIRST@x.example ' }, temp.site);
    expect(refused(taken)).toMatchObject({ status: 409, path: 'email' });
    expect((await acceptInvitation(token, MIRA, temp.site)).ok).toBe(true);
  });

  it('is made by a trainer only', async () => {
    const others = [
      await addMember(temp.site, trainer, 'trainee'),
      await addMember(temp.site, trainer, 'employer'),
      null,
    ];
    for (const viewer of others) {
      const outcome = await invite(viewer, { role: 'trainer', name: 'X' }, temp.site);
      expect(refused(outcome)).toMatchObject({ status: 403 });
    }
  });

  it.each([
    ['role', { role: 'owner', name: 'X' }, 'role must be trainee, trainer or employer.'],
    ['name', { role: 'trainee', name: '' }, 'name must be 1 to 80 characters on one line.'],
    ['name', { role: 'trainee' }, 'name must be 1 to 80 characters on one line.'],
  ])('with a bad %s is refused in one sentence', async (path, input, message) => {
    const outcome = await invite(trainer, input as never, temp.site);
    expect(refused(outcome)).toMatchObject({ status: 400, path, message });
  });

  it('that is no object at all is refused in one sentence', async () => {
    expect(refused(await invite(trainer, undefined as never, temp.site)).status).toBe(400);
  });

  it('is listed with its state and without its link', async () => {
    const used = await inviteMira('trainee', new Date('2026-03-05T00:00:00.000Z'));
    const at = new Date('2026-03-11T00:00:00.000Z');
    granted(await acceptInvitation(tokenOf(used.path), MIRA, temp.site, at));
    await inviteMira('trainee', new Date('2026-03-01T00:00:00.000Z'));
    await inviteMira('trainee', new Date('2026-03-10T00:00:00.000Z'));
    const listed = await invitationsOf(trainer.org, temp.site, at);
    expect(listed.map((one) => one.state)).toEqual(['open', 'used', 'expired']);
    expect(JSON.stringify(listed)).not.toContain(tokenOf(used.path));
  });
});
