import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signIn, viewerOf } from '../../src/accounts/index.ts';
import { deviceKeysFor } from '../../src/pages/_desk/device-keys.ts';
import { endDeviceKey } from '../../src/pages/_desk/end-device-key.ts';
import { recordOf } from '../../src/pages/_desk/proof-of.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import { didOf, newId, type SigningKey } from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import { cosign, sheetNow, signedBy } from './after.ts';
import {
  enrolledKey,
  makeStatement,
  openStage,
  PASSWORD,
  type Stage,
  signedRequest,
  ticketFor,
} from './workshop.ts';

let stage: Stage;
let key: SigningKey;
beforeAll(async () => {
  stage = await openStage();
}, 60_000);
afterAll(() => stage.close());

const NOWHERE = { address: null, headers: null };
const end = (name: string, over: Record<string, unknown> = {}, from = NOWHERE) =>
  endDeviceKey(
    stage.as(name),
    { id: newId(), keyId: key.keyId, reason: 'lost', password: PASSWORD, ...over },
    from,
    stage.site,
  );
const freshKey = async (trainer = 'Ruth Amsel') => {
  key = await enrolledKey(stage, trainer);
  return key;
};
async function signed(trainer = 'Ruth Amsel') {
  const sheet = sheetNow(stage);
  const statement = makeStatement(stage, sheet, trainer);
  const ticket = await ticketFor(stage, trainer, statement);
  return signedRequest(statement, sheet, key, ticket);
}

/** Signs in as a browser does, and gives its cookies back as a request would send them. */
async function openSession(name: string): Promise<Headers> {
  const { email } = stage.as(name);
  const request = new Request('http://localhost/sign-in');
  const done = await asSite(() => signIn(request, { email, password: PASSWORD }, null, stage.site));
  if (!done.ok) throw new Error(done.refusal.message);
  return new Headers({ cookie: done.value.map((one) => one.split(';')[0]).join('; ') });
}
const whoIs = async (headers: Headers) =>
  (await viewerOf(new Request('http://localhost/', { headers }), stage.site))?.person ?? null;

describe('a device that is ended', () => {
  it('keeps what it signed genuine, and gets nothing more in', async () => {
    await freshKey();
    const before = await signedBy(stage, 'Ruth Amsel', key);
    const onTheWay = await signed();
    expect((await end('Ruth Amsel')).ok).toBe(true);
    const { org } = stage.as('Ruth Amsel');
    expect(await recordOf(before.signoff, org, stage.site)).toMatchObject({
      state: 'proved',
      verdict: { verdict: 'genuine' },
    });
    for (const request of [onTheWay, await signed()]) {
      expect(await receivePractical(stage.as('Ruth Amsel'), request, stage.site)).toMatchObject({
        ok: false,
        status: 422,
        path: 'keyId',
      });
    }
  });

  it('gets nothing in without a network either', async () => {
    await freshKey();
    const sheet = sheetNow(stage, { confirmed: 'device' });
    const statement = makeStatement(stage, sheet, 'Ruth Amsel');
    const request = { ...(await signedRequest(statement, sheet, key, '')), ticket: null };
    expect((await end('Ruth Amsel', { reason: 'stolen' })).ok).toBe(true);
    expect(await receivePractical(stage.as('Ruth Amsel'), request, stage.site)).toMatchObject({
      ok: false,
      path: 'keyId',
    });
  });

  it('is ended while its record is on the way: one or the other, and never a record after the end', async () => {
    await freshKey();
    const request = await signed();
    const [taken, ended] = await Promise.all([
      receivePractical(stage.as('Ruth Amsel'), request, stage.site),
      end('Ruth Amsel'),
    ]);
    expect(ended.ok).toBe(true);
    const record = await stage.site.store.event(request.event.id);
    expect(record !== null).toBe(taken.ok);
    if (record !== null && ended.ok) {
      const stop = await stage.site.store.event(ended.value.id);
      expect(record.seq).toBeLessThan(stop?.seq ?? -1);
    }
  });

  it('is ended once: the same form again is the same answer, another one is refused', async () => {
    await freshKey();
    const id = newId();
    const first = await end('Ruth Amsel', { id });
    expect(first.ok).toBe(true);
    expect(await end('Ruth Amsel', { id })).toMatchObject({ ok: true });
    expect(await end('Ruth Amsel')).toMatchObject({ ok: false, status: 409, path: 'keyId' });
    expect(await end('Ruth Amsel', { id, reason: 'other' })).toMatchObject({ status: 422 });
  });
});

describe('who may end a device', () => {
  it.each([
    ['Ruth Amsel', true],
    ['Dev Pradhan', true],
    ['Anna Weir', true],
    ['Mira Holt', false],
  ])('of Ruth Amsel: %s, %s', async (name, may) => {
    await freshKey();
    const done = await end(name);
    if (may) expect(done.ok).toBe(true);
    else expect(done).toMatchObject({ ok: false, status: 403 });
  });

  it('asks for the password of who ends it', async () => {
    await freshKey();
    expect(await end('Dev Pradhan', { password: `${PASSWORD}!` })).toMatchObject({
      ok: false,
      status: 401,
      path: 'password',
      message: 'That is not your password, so nothing was changed.',
    });
    const [own] = await deviceKeysFor(stage.as('Ruth Amsel'), stage.site);
    expect(own).toMatchObject({ keyId: key.keyId, end: null });
  });

  it('refuses somebody who is not signed in, and a key of another workshop', async () => {
    await freshKey();
    const input = { id: newId(), keyId: key.keyId, reason: 'lost', password: PASSWORD };
    expect(await endDeviceKey(null, input, NOWHERE, stage.site)).toMatchObject({ status: 401 });
    const stranger = { ...stage.as('Dev Pradhan'), org: newId() };
    expect(await endDeviceKey(stranger, input, NOWHERE, stage.site)).toMatchObject({
      status: 404,
    });
  });
});

describe('the sessions of its owner', () => {
  it('end elsewhere when it is lost, and go on where it was reported', async () => {
    await freshKey();
    const [here, there, other] = [
      await openSession('Ruth Amsel'),
      await openSession('Ruth Amsel'),
      await openSession('Dev Pradhan'),
    ];
    expect(await whoIs(there)).not.toBeNull();
    const done = await end('Ruth Amsel', {}, { address: null, headers: here as never });
    expect(done).toMatchObject({ ok: true, value: { signedOut: expect.any(Number) } });
    expect(await whoIs(there)).toBeNull();
    expect(await whoIs(here)).toBe(stage.person('Ruth Amsel').person);
    expect(await whoIs(other)).toBe(stage.person('Dev Pradhan').person);
  });

  it('end everywhere when somebody else reports it stolen', async () => {
    await freshKey();
    const [ruths, annas] = [await openSession('Ruth Amsel'), await openSession('Anna Weir')];
    const from = { address: null, headers: annas as never };
    expect((await end('Anna Weir', { reason: 'stolen' }, from)).ok).toBe(true);
    expect(await whoIs(ruths)).toBeNull();
    expect(await whoIs(annas)).not.toBeNull();
  });

  it('go on when it was only replaced', async () => {
    await freshKey();
    const ruths = await openSession('Ruth Amsel');
    expect((await end('Dev Pradhan', { reason: 'replaced' })).ok).toBe(true);
    expect(await whoIs(ruths)).not.toBeNull();
  });
});

describe('the list of devices', () => {
  it('tells when each was used and how often, co-signatures counted', async () => {
    await freshKey('Dev Pradhan');
    const ruths = await enrolledKey(stage, 'Ruth Amsel');
    const find = async () =>
      (await deviceKeysFor(stage.as('Dev Pradhan'), stage.site)).find(
        ({ keyId }) => keyId === key.keyId,
      );
    expect(await find()).toMatchObject({ label: 'tablet', signed: 0, firstUsed: null });
    await signedBy(stage, 'Dev Pradhan', key);
    const first = await find();
    await cosign(stage, 'Dev Pradhan', await signedBy(stage, 'Ruth Amsel', ruths), key);
    const last = await find();
    expect(last).toMatchObject({ signed: 2, firstUsed: first?.firstUsed });
    expect(Date.parse(last?.lastUsed ?? '')).toBeGreaterThanOrEqual(
      Date.parse(last?.firstUsed ?? ''),
    );
  });

  it("shows a trainer everybody's with their own first, the employer all, a trainee none", async () => {
    await freshKey('Dev Pradhan');
    const devs = await deviceKeysFor(stage.as('Dev Pradhan'), stage.site);
    expect(devs[0]?.person).toBe(stage.person('Dev Pradhan').person);
    const annas = await deviceKeysFor(stage.as('Anna Weir'), stage.site);
    expect(annas.map(({ keyId }) => keyId).sort()).toEqual(devs.map(({ keyId }) => keyId).sort());
    expect(await deviceKeysFor(stage.as('Mira Holt'), stage.site)).toEqual([]);
  });
});

describe('the proof of a record of the second form', () => {
  it('is genuine by the command, also after the key was ended, and altered when a photo is exchanged', async () => {
    await freshKey();
    const statement = await signedBy(stage, 'Ruth Amsel', key);
    await end('Dev Pradhan');
    const record = await recordOf(statement.signoff, statement.org, stage.site);
    if (record.state !== 'proved') throw new Error(record.state);
    const text = JSON.stringify(record.file);
    const did = didOf(stage.site.siteKey.keyId);
    const verify = async (name: string, json: string) => {
      const file = join(stage.dataDir, name);
      writeFileSync(file, json);
      const run = promisify(execFile)(
        process.execPath,
        ['src/cli/verify.ts', file, '--trust', did],
        { cwd: resolve(import.meta.dirname, '../..') },
      );
      return run.then(
        ({ stdout }) => ({ code: 0, stdout }),
        (error: { code: number; stdout: string }) => ({ code: error.code, stdout: error.stdout }),
      );
    };
    const whole = await verify('proof.json', text);
    expect(whole.stdout).toContain('Genuine.');
    expect(whole.code).toBe(0);
    expect(text).toContain('a'.repeat(64));
    const exchanged = await verify('other.json', text.replaceAll('a'.repeat(64), 'b'.repeat(64)));
    expect(exchanged.stdout).toContain('Altered.');
    expect(exchanged.code).toBe(1);
  });
});
