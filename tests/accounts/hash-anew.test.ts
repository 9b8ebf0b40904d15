import { scrypt } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { confirmSignIn, setPassword, type Viewer } from '../../src/accounts/index.ts';
import { personWithPassword } from '../../src/accounts/person-with-password.ts';
import { asSite } from '../../src/store/index.ts';
import { granted, makeTempSite, PASSWORD, refused, setUp, signInAs } from './temp-site.ts';

const TODAY = /^\$scrypt\$ln=15,r=8,p=3\$/;
const SALT = '00112233445566778899aabbccddeeff';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;

/** As better-auth 1.7 writes one: its salt taken as text, N 16384, r 16, p 1, 64 bytes. */
function formerHash(password: string): Promise<string> {
  const options = { N: 16_384, r: 16, p: 1, maxmem: 67_108_864 };
  return new Promise((done, fail) => {
    scrypt(password, SALT, 64, options, (error, key) =>
      error === null ? done(`${SALT}:${key.toString('hex')}`) : fail(error),
    );
  });
}

beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
  await keep(await formerHash(PASSWORD));
});
afterEach(() => temp.remove());

const keep = (password: string) =>
  asSite(() => temp.site.store.db.updateTable('account').set({ password }).execute());
const kept = async (): Promise<string> => {
  const db = temp.site.store.db;
  return asSite(async () => {
    const row = await db.selectFrom('account').select('password').executeTakeFirstOrThrow();
    return row.password ?? '';
  });
};
const confirm = (password: string) =>
  confirmSignIn(trainer, password, '0'.repeat(64), null, temp.site);

describe('a hash that is outdated', () => {
  it('is made anew as its owner signs in, once, and their password goes on working', async () => {
    await signInAs(temp.site, trainer.email);
    const anew = await kept();
    expect(anew).toMatch(TODAY);
    await signInAs(temp.site, trainer.email);
    expect(await kept()).toBe(anew);
  });

  it('is made anew as its owner signs a record', async () => {
    expect((await confirm(PASSWORD)).ok).toBe(true);
    expect(await kept()).toMatch(TODAY);
    expect((await confirm(PASSWORD)).ok).toBe(true);
  });

  it('is left as it is by a wrong password', async () => {
    const before = await kept();
    expect(refused(await confirm(`${PASSWORD} not`)).status).toBe(401);
    expect(await asSite(() => personWithPassword(temp.site, trainer.email, 'no'))).toBeNull();
    expect(await kept()).toBe(before);
  });

  it('never comes in place of a password that was set meanwhile', async () => {
    const { password } = await temp.site.auth.$context;
    const { verify } = password;
    password.verify = async (given) => {
      const isRight = await verify(given);
      password.verify = verify;
      granted(await asSite(() => setPassword(temp.site, trainer.person, 'another password')));
      return isRight;
    };
    await asSite(() => personWithPassword(temp.site, trainer.email, PASSWORD));
    expect((await confirm('another password')).ok).toBe(true);
    expect((await confirm(PASSWORD)).ok).toBe(false);
  });
});
