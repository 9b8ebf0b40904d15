import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordOf } from '../../src/pages/_desk/proof-of.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import { standingOf } from '../../src/pages/_desk/workshop.ts';
import { newId, type SigningKey } from '../../src/records/index.ts';
import { wholeWorkshop } from '../helpers/whole-workshop.ts';
import {
  enrolledKey,
  makeSheet,
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
  key = await enrolledKey(stage, 'Ruth Amsel');
});
afterAll(() => stage.close());

/** A request that is right in every way, signed by Ruth Amsel for Mira Holt. */
async function rightRequest(over: Parameters<typeof makeSheet>[1] = {}) {
  const sheet = makeSheet(stage, over);
  const statement = makeStatement(stage, sheet, 'Ruth Amsel');
  const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
  return signedRequest(statement, sheet, key, ticket);
}
const receive = (name: string, request: unknown, now?: Date) =>
  receivePractical(stage.as(name), request, stage.site, now);

describe('a signed practical', () => {
  it('is logged, and shows in the standing of the person as one of the practicals it takes', async () => {
    const request = await rightRequest();
    const done = await receive('Ruth Amsel', request);
    expect(done).toMatchObject({ ok: true, value: { state: 'logged', signoff: request.event.id } });
    const workshop = await wholeWorkshop(stage.as('Ruth Amsel').org, stage.site);
    const standing = standingOf(workshop, {
      person: stage.person('Mira Holt').person,
      bench: stage.bench.id,
      work: 'rip',
      at: new Date().toISOString(),
    });
    expect(standing.state).toBe('not-yet');
    const line = standing.because.find(({ unit }) => unit.id === 'set-knife-and-guard');
    expect(line?.signoff).toBe(request.event.id);
    expect(line?.text).toMatch(/^not yet, because it takes 2 practicals on 2 days: 1 so far, on /);
  });

  it('gets the same reply when it is delivered again, even with its ticket spent', async () => {
    const request = await rightRequest();
    const first = await receive('Ruth Amsel', request);
    expect(first.ok).toBe(true);
    expect(await receive('Ruth Amsel', request)).toEqual(first);
    const all = await stage.site.store.events({
      org: stage.as('Ruth Amsel').org,
      kinds: ['practical.signed'],
    });
    expect(all.filter(({ event }) => event?.id === request.event.id)).toHaveLength(1);
  });

  it('is proved genuine on the spot', async () => {
    const request = await rightRequest();
    await receive('Ruth Amsel', request);
    const record = await recordOf(request.event.id, stage.as('Ruth Amsel').org, stage.site);
    expect(record).toMatchObject({ state: 'proved', verdict: { verdict: 'genuine' } });
  });
});

describe('who may sign', () => {
  it.each([
    ['Mira Holt', 'A trainee does not write in these records: a trainer does this.'],
    [
      'Anna Weir',
      'The employer reads these records and does not write in them: a trainer does this.',
    ],
  ])('refuses %s with one sentence', async (name, message) => {
    const request = await rightRequest();
    expect(await receive(name, request)).toMatchObject({
      ok: false,
      status: 403,
      path: '',
      message,
    });
  });

  it('refuses somebody who is not signed in', async () => {
    const done = await receivePractical(null, await rightRequest(), stage.site);
    expect(done).toMatchObject({ ok: false, status: 401 });
  });

  it('refuses a trainer who signs for themselves', async () => {
    const request = await rightRequest();
    const own = {
      ...request,
      sheet: { ...request.sheet, person: stage.person('Ruth Amsel').person },
    };
    expect(await receive('Ruth Amsel', own)).toMatchObject({
      ok: false,
      status: 403,
      message:
        'Nobody signs, or takes back, a practical about themselves: a second trainer does this.',
    });
  });

  it('refuses one trainer sending what another signed', async () => {
    expect(await receive('Dev Pradhan', await rightRequest())).toMatchObject({
      ok: false,
      status: 403,
      path: 'event.by',
    });
  });
});

describe('what a signature must carry', () => {
  it('refuses a ticket that has run out, and keeps nothing', async () => {
    const request = await rightRequest();
    await stage.site.store.db
      .updateTable('sign_in_ticket')
      .set({ expiresAt: new Date(Date.now() - 1000).toISOString() })
      .execute();
    expect(await receive('Ruth Amsel', request)).toMatchObject({
      ok: false,
      status: 403,
      path: 'ticket',
    });
    expect(await stage.site.store.event(request.event.id)).toBeNull();
  });

  it('refuses a ticket given for another statement', async () => {
    const one = await rightRequest();
    const other = await rightRequest({ material: 'Oak, 30 mm' });
    expect(await receive('Ruth Amsel', { ...one, ticket: other.ticket })).toMatchObject({
      ok: false,
      status: 403,
      path: 'ticket',
    });
  });

  it('refuses a statement changed after it was signed', async () => {
    const request = await rightRequest();
    const { statement } = request.event.body;
    const changed = {
      ...request,
      sheet: { ...request.sheet, material: 'Oak' },
      event: {
        ...request.event,
        body: { ...request.event.body, statement: { ...statement, material: 'Oak' } },
      },
    };
    expect(await receive('Ruth Amsel', changed)).toMatchObject({
      ok: false,
      status: 422,
      path: 'deviceSignature',
      message: "The statement is not what the trainer's device signed.",
    });
  });

  it('refuses a signed statement that is not what the sheet comes to', async () => {
    const sheet = makeSheet(stage);
    const statement = makeStatement(stage, sheet, 'Ruth Amsel');
    const first = statement.settings[0];
    if (first === undefined) throw new Error('no setting');
    const kinder = {
      ...statement,
      settings: [{ ...first, uncertainty: 0, margin: 3.5 }, ...statement.settings.slice(1)],
    };
    const ticket = await ticketFor(stage, 'Ruth Amsel', kinder);
    const request = await signedRequest(kinder, sheet, key, ticket);
    expect(await receive('Ruth Amsel', request)).toMatchObject({
      ok: false,
      status: 422,
      path: 'statement.settings.0.margin',
    });
  });

  it('refuses a key that was never enrolled', async () => {
    const { generateSigningKey } = await import('../../src/records/index.ts');
    const stranger = await generateSigningKey({ keep: 'on-device' });
    const sheet = makeSheet(stage);
    const statement = makeStatement(stage, sheet, 'Ruth Amsel');
    const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
    const request = await signedRequest(statement, sheet, stranger, ticket);
    expect(await receive('Ruth Amsel', request)).toMatchObject({
      ok: false,
      status: 422,
      path: 'keyId',
    });
  });

  it("refuses another trainer's key", async () => {
    const devs = await enrolledKey(stage, 'Dev Pradhan');
    const sheet = makeSheet(stage);
    const statement = makeStatement(stage, sheet, 'Ruth Amsel');
    const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
    const request = await signedRequest(statement, sheet, devs, ticket);
    expect(await receive('Ruth Amsel', request)).toMatchObject({ ok: false, path: 'keyId' });
  });

  it('refuses another body under an id that is taken', async () => {
    const request = await rightRequest();
    await receive('Ruth Amsel', request);
    const { statement } = request.event.body;
    const sheet = { ...request.sheet, material: 'Oak, 30 mm' };
    const other = {
      ...makeStatement(stage, sheet, 'Ruth Amsel'),
      signoff: statement.signoff,
    };
    const ticket = await ticketFor(stage, 'Ruth Amsel', other);
    const again = await signedRequest(other, sheet, key, ticket);
    expect(await receive('Ruth Amsel', again)).toMatchObject({
      ok: false,
      status: 422,
      path: 'id',
    });
  });
});

describe('what can be signed off', () => {
  it.each([
    [
      'a knife gap outside the limit',
      { setting: 'gap-at-table', value: 9, unit: 'mm', instrument: 'feeler' },
      'body.statement.decision',
    ],
    [
      // 7.8 mm with a rule of 0.5 mm: too near 8 mm to call (ISO 14253-1)
      'a knife gap too close to call',
      { setting: 'gap-at-table', value: 7.8, unit: 'mm', instrument: 'rule' },
      'decision',
    ],
  ] as const)('refuses %s', async (_, reading, path) => {
    const readings = makeSheet(stage).readings.map((one) =>
      one.setting === reading.setting ? reading : one,
    );
    const done = await receive('Ruth Amsel', await rightRequest({ readings }));
    expect(done).toMatchObject({ ok: false, status: 422, path });
  });

  it('refuses a sign-off that runs longer than allowed', async () => {
    const request = await rightRequest({ validUntil: '2099-01-01' });
    expect(await receive('Ruth Amsel', request)).toMatchObject({ ok: false, path: 'validUntil' });
  });

  it('refuses a sign-off with a reading left out', async () => {
    const readings = makeSheet(stage).readings.slice(1);
    const request = await rightRequest({ readings });
    expect(await receive('Ruth Amsel', request)).toMatchObject({ ok: false, path: 'decision' });
  });

  it('takes a "not yet" with a stop-the-work error, and signs nobody off', async () => {
    const request = await rightRequest({
      person: stage.person('Tom Okafor').person,
      decision: 'not-yet',
      validFrom: null,
      validUntil: null,
      stops: ['loosens-while-live'],
      stopNote: 'Reached for the knife clamp with the key in the isolator.',
    });
    expect((await receive('Ruth Amsel', request)).ok).toBe(true);
    const record = await recordOf(request.event.id, stage.as('Ruth Amsel').org, stage.site);
    expect(record.state).toBe('not-yet');
  });
});

describe('a record changed in the store', () => {
  /** As somebody would who has the file: takes the guards off, and writes over the row. */
  async function writeOver(change: (json: string) => string, id: string): Promise<void> {
    const { db } = stage.site.store;
    const row = await db.selectFrom('event').select('json').where('id', '=', id).executeTakeFirst();
    const json = change(row?.json ?? '').replaceAll("'", "''");
    await stage.tamper(`update event set json = '${json}' where id = '${id}'`);
  }

  it.each([
    ['the material', (json: string) => json.replace('Redwood', 'Hardwood')],
    ['the end date', (json: string) => json.replace(/"validUntil":"20/, '"validUntil":"21')],
    ['one blank', (json: string) => `${json} `],
    ['one letter of the place', (json: string) => json.replace('Machine shop', 'Machine shOp')],
    ['its form', (json: string) => json.slice(1)],
  ])('reads as broken when %s is changed, and counts for nobody', async (_, change) => {
    const person = stage.person('Tom Okafor').person;
    const request = await rightRequest({ person });
    const { org } = stage.as('Ruth Amsel');
    expect((await receive('Ruth Amsel', request)).ok).toBe(true);
    expect((await recordOf(request.event.id, org, stage.site)).state).toBe('proved');
    await writeOver(change, request.event.id);
    const record = await recordOf(request.event.id, org, stage.site);
    expect(record.state).toBe('broken');
    expect(record.state === 'broken' && record.checks.some(({ state }) => state === 'failed')).toBe(
      true,
    );
    const standing = standingOf(await wholeWorkshop(org, stage.site), {
      person,
      bench: stage.bench.id,
      work: 'rip',
      at: new Date().toISOString(),
    });
    expect(standing.because.every(({ state }) => state === 'not-yet')).toBe(true);
  });

  it('is not called genuine while a withdrawal in the log is damaged', async () => {
    const { org } = stage.as('Ruth Amsel');
    const [one, other] = [await rightRequest(), await rightRequest()];
    for (const request of [one, other]) await receive('Ruth Amsel', request);
    const id = newId();
    const reason = { id, reason: 'Guard changed' };
    await withdrawPractical(stage.as('Dev Pradhan'), one.event.id, reason, stage.site);
    const before = await recordOf(other.event.id, org, stage.site);
    expect(before).toMatchObject({ verdict: { verdict: 'genuine' } });
    await writeOver((json) => json.slice(1), id);
    const after = await recordOf(other.event.id, org, stage.site);
    expect(after).toMatchObject({ verdict: { verdict: 'unknown as of a date' } });
  });

  it('keeps the password out of the log', async () => {
    for await (const { text } of stage.site.store.readAll()) expect(text).not.toContain(PASSWORD);
  });
});
