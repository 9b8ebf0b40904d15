import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  acceptInvitation,
  groupsOf,
  makeGroup,
  peopleOf,
  removeGroup,
  renameGroup,
  setGroupPeople,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import { granted, makeWorkshop, refused } from './temp-site.ts';

let shop: Awaited<ReturnType<typeof makeWorkshop>>;
beforeAll(async () => {
  shop = await makeWorkshop();
});
afterAll(() => shop.remove());

describe('groups', () => {
  it('are for trainers', async () => {
    for (const viewer of [shop.mira, shop.boss, null]) {
      expect(refused(await makeGroup(viewer, { id: newId(), name: 'A' }, shop.site)).status).toBe(
        403,
      );
      expect(refused(await removeGroup(viewer, newId(), shop.site)).status).toBe(403);
      expect(
        refused(await setGroupPeople(viewer, { id: newId(), people: [] }, shop.site)).status,
      ).toBe(403);
    }
    expect(await groupsOf(shop.trainer.org, shop.site)).toEqual([]);
  });

  it('are made once by one form, and never twice under one name', async () => {
    const id = newId();
    const make = (of: { id: string; name: string }) => makeGroup(shop.trainer, of, shop.site);
    expect(granted(await make({ id, name: 'Monday class' }))).toBe(id);
    expect(granted(await make({ id, name: 'Monday class' }))).toBe(id);
    expect(refused(await make({ id: newId(), name: ' monday  CLASS' }))).toMatchObject({
      status: 409,
      path: 'name',
    });
    expect(refused(await make({ id: newId(), name: '' })).message).toBe(
      'name must be 1 to 80 characters on one line.',
    );
    expect((await groupsOf(shop.trainer.org, shop.site)).map(({ name }) => name)).toEqual([
      'Monday class',
    ]);
  });

  it('hold people of the workshop alone, and lose none of them when they go', async () => {
    const id = granted(
      await makeGroup(shop.trainer, { id: newId(), name: 'Night shift' }, shop.site),
    );
    const put = (people: string[]) => setGroupPeople(shop.trainer, { id, people }, shop.site);
    granted(await put([shop.mira.person, shop.tom.person, shop.mira.person]));
    expect(refused(await put([shop.mira.person, 'nobody-of-here'])).status).toBe(400);
    const found = (await groupsOf(shop.trainer.org, shop.site)).find((one) => one.id === id);
    expect(found?.people).toEqual(new Set([shop.mira.person, shop.tom.person]));
    expect(granted(await renameGroup(shop.trainer, { id, name: 'Early shift' }, shop.site))).toBe(
      id,
    );
    expect(
      refused(await renameGroup(shop.trainer, { id, name: 'Monday class' }, shop.site)).status,
    ).toBe(409);
    const before = (await peopleOf(shop.trainer.org, shop.site)).length;
    granted(await removeGroup(shop.trainer, id, shop.site));
    granted(await removeGroup(shop.trainer, id, shop.site));
    expect((await peopleOf(shop.trainer.org, shop.site)).length).toBe(before);
    expect(refused(await put([shop.mira.person])).status).toBe(404);
  });

  it('takes somebody in who joins by an invitation of its own', async () => {
    const { checkList, inviteMany } = await import('../../src/accounts/index.ts');
    const form = newId();
    const plan = granted(
      await checkList(
        shop.trainer,
        { form, text: 'Ida Quist,trainee,Tuesday class', groups: 'make' },
        shop.site,
      ),
    );
    const [made] = granted(await inviteMany(shop.trainer, form, plan, shop.site));
    const token = made?.path.split('/').at(-1) ?? '';
    const { person } = granted(
      await asSite(() =>
        acceptInvitation(
          token,
          { name: 'Ida Quist', email: 'ida.quist@alderlane.example', password: 'twelve or more' },
          shop.site,
        ),
      ),
    );
    const group = (await groupsOf(shop.trainer.org, shop.site)).find(
      ({ name }) => name === 'Tuesday class',
    );
    expect([...(group?.people ?? [])]).toEqual([person]);
  });
});
