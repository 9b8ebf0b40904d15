import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  createOrganisation,
  needsSetUp,
  organisationName,
  peopleOf,
  personOf,
} from '../../src/accounts/index.ts';
import { addMember, granted, makeTempSite, PASSWORD, refused, setUp } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
beforeEach(async () => {
  temp = await makeTempSite();
});
afterEach(() => temp.remove());

const INPUT = {
  organisation: 'Test Shop',
  name: 'First Trainer',
  email: 'First@X.example',
  password: PASSWORD,
};

describe('the first run', () => {
  it('makes one organisation and its first trainer, and then is over', async () => {
    expect(await needsSetUp(temp.site)).toBe(true);
    const { org, person } = granted(await createOrganisation(INPUT, 'real', temp.site));
    expect(await needsSetUp(temp.site)).toBe(false);
    expect(await organisationName(org, temp.site)).toBe('Test Shop');
    expect(await personOf(org, person, temp.site)).toMatchObject({
      name: 'First Trainer',
      role: 'trainer',
    });
    const again = refused(
      await createOrganisation({ ...INPUT, email: 'b@x.example' }, 'real', temp.site),
    );
    expect(again).toMatchObject({ status: 409, message: expect.stringMatching(/already set up/) });
  });

  it('lets one of two who set up at the same moment through', async () => {
    const both = await Promise.all([
      createOrganisation(INPUT, 'real', temp.site),
      createOrganisation({ ...INPUT, email: 'b@x.example' }, 'real', temp.site),
    ]);
    expect(both.filter((one) => one.ok)).toHaveLength(1);
    expect(await temp.site.store.db.selectFrom('user').select('id').execute()).toHaveLength(1);
  });

  it.each([
    [
      'organisation',
      { organisation: '  ' },
      'organisation must be 1 to 80 characters on one line.',
    ],
    ['name', { name: 'x'.repeat(81) }, 'name must be 1 to 80 characters on one line.'],
    ['name', { name: 'Mira\nHolt' }, 'name must be 1 to 80 characters on one line.'],
    ['name', { name: 'Mira \u202Etloh' }, 'name must be 1 to 80 characters on one line.'],
    ['email', { email: 'first at x' }, 'email must be an e-mail address like name@example.com.'],
    ['password', { password: 'eleven char' }, 'password must be at least 12 characters.'],
    [
      'password',
      { password: 'QwertyUiop123' },
      'password must not be one that many people use or that has leaked somewhere; put a few words of your own together.',
    ],
    ['password', { password: 'x'.repeat(129) }, 'password must be at most 128 characters.'],
  ])('refuses a bad %s (%o) in one sentence', async (path, over, message) => {
    const outcome = await createOrganisation({ ...INPUT, ...over }, 'real', temp.site);
    expect(refused(outcome)).toMatchObject({ status: 400, path, message });
    expect(await needsSetUp(temp.site)).toBe(true);
  });

  it('logs opaque ids and salted hashes, and no name, address or organisation', async () => {
    const trainer = await setUp(temp.site);
    await addMember(temp.site, trainer, 'trainee', 'Mira Example');
    const events = await temp.site.store.events({ org: trainer.org });
    expect(events.map((one) => one.event?.kind)).toEqual([
      'person.joined',
      'organisation.created',
      'invitation.made',
      'person.joined',
      'invitation.used',
    ]);
    expect(events.map((one) => one.broken)).toEqual(Array(5).fill(null));
    const log = events.map((one) => one.text).join('\n');
    for (const detail of ['Trainer', 'Mira', 'Example', 'x.example', 'Test Shop']) {
      expect(log).not.toContain(detail);
    }
  });

  it('hashes the same name differently for two people', async () => {
    const trainer = await setUp(temp.site);
    const one = await addMember(temp.site, trainer, 'trainee', 'Same Name');
    const events = await temp.site.store.events({ org: trainer.org, kinds: ['person.joined'] });
    const hashes = events.map((event) => event.event?.body.nameHash);
    expect(new Set(hashes).size).toBe(2);
    const person = await personOf(trainer.org, one.person, temp.site);
    expect(hashes).toContain(person?.nameHash);
  });

  it('lists the people by role and name, and nobody of another organisation', async () => {
    const trainer = await setUp(temp.site);
    await addMember(temp.site, trainer, 'employer', 'Zoe');
    await addMember(temp.site, trainer, 'trainee', 'Bo');
    await addMember(temp.site, trainer, 'trainee', 'Al');
    const people = await peopleOf(trainer.org, temp.site);
    expect(people.map((one) => one.name)).toEqual(['Al', 'Bo', 'First Trainer', 'Zoe']);
    expect(await peopleOf('another', temp.site)).toEqual([]);
    expect(await personOf('another', trainer.person, temp.site)).toBeNull();
  });
});
