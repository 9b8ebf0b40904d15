import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { endDeviceKey } from '../../src/pages/_desk/end-device-key.ts';
import { receiveCosign } from '../../src/pages/_desk/receive-cosign.ts';
import { storyOf } from '../../src/pages/_desk/story-of.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import {
  type Cosign,
  generateSigningKey,
  newId,
  type SigningKey,
  type Statement,
} from '../../src/records/index.ts';
import { cosign, cosignRequest, makeCosign, signedBy, withThirdTrainer } from './after.ts';
import { enrolledKey, openStage, PASSWORD, type Stage } from './workshop.ts';

let stage: Stage;
let ruths: SigningKey;
let devs: SigningKey;
let nils: SigningKey;
let read: Statement;

beforeAll(async () => {
  stage = await withThirdTrainer(await openStage());
  ruths = await enrolledKey(stage, 'Ruth Amsel');
  devs = await enrolledKey(stage, 'Dev Pradhan');
  nils = await enrolledKey(stage, 'Nils Arden');
  read = await signedBy(stage, 'Ruth Amsel', ruths);
}, 60_000);
afterAll(() => stage.close());

async function storyLines(of: Statement) {
  const stored = await stage.site.store.event(of.signoff);
  if (stored?.event?.kind !== 'practical.signed') throw new Error('no such record');
  return storyOf(stored.event, stage.site);
}

const send = (name: string, input: unknown, signoff = read.signoff) =>
  receiveCosign(stage.as(name), signoff, input, stage.site);

/** A request that is right but for what is changed in the statement before it is signed. */
const changed = async (over: Partial<Cosign>) =>
  cosignRequest(
    stage,
    'Dev Pradhan',
    makeCosign(stage, 'Dev Pradhan', read, over),
    devs,
    read.who.person,
  );

describe("a second trainer's word", () => {
  it('is entered, stands in the story of the record, and gets the same reply when sent again', async () => {
    const fresh = await signedBy(stage, 'Ruth Amsel', ruths);
    const word = makeCosign(stage, 'Dev Pradhan', fresh);
    const request = await cosignRequest(stage, 'Dev Pradhan', word, devs, fresh.who.person);
    const first = await send('Dev Pradhan', request, fresh.signoff);
    expect(first).toMatchObject({ ok: true, value: { id: word.id } });
    expect(await send('Dev Pradhan', request, fresh.signoff)).toEqual(first);
    expect(await storyLines(fresh)).toMatchObject([
      { kind: 'signed', by: stage.person('Ruth Amsel').person },
      { kind: 'cosigned', by: stage.person('Dev Pradhan').person, answer: 'agrees' },
    ]);
  });

  it('is refused a second time, whatever it says', async () => {
    const fresh = await signedBy(stage, 'Ruth Amsel', ruths);
    expect((await cosign(stage, 'Dev Pradhan', fresh, devs)).ok).toBe(true);
    const again = await cosign(stage, 'Dev Pradhan', fresh, devs, {
      answer: 'disagrees',
      note: 'On second thoughts the gap was not measured.',
    });
    expect(again).toMatchObject({ ok: false, status: 409, path: 'signoff' });
    expect(await storyLines(fresh)).toHaveLength(2);
  });

  it('is entered once when one trainer sends it from two devices at the same moment', async () => {
    const fresh = await signedBy(stage, 'Ruth Amsel', ruths);
    const requests = await Promise.all(
      [1, 2, 3].map(() =>
        cosignRequest(
          stage,
          'Dev Pradhan',
          makeCosign(stage, 'Dev Pradhan', fresh),
          devs,
          fresh.who.person,
        ),
      ),
    );
    const replies = await Promise.all(
      requests.map((one) => send('Dev Pradhan', one, fresh.signoff)),
    );
    expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
    expect(replies.filter((one) => !one.ok && one.status === 409)).toHaveLength(2);
    expect(await storyLines(fresh)).toHaveLength(2);
  });

  it('is entered for each of two trainers who sign at the same moment', async () => {
    const fresh = await signedBy(stage, 'Ruth Amsel', ruths);
    const replies = await Promise.all([
      cosign(stage, 'Dev Pradhan', fresh, devs),
      cosign(stage, 'Nils Arden', fresh, nils, { answer: 'disagrees', note: 'Not seen by me.' }),
    ]);
    expect(replies.map(({ ok }) => ok)).toEqual([true, true]);
    const words = (await storyLines(fresh)).flatMap((one) =>
      one.kind === 'cosigned' ? [one.answer] : [],
    );
    expect(words.sort()).toEqual(['agrees', 'disagrees']);
  });

  it('is refused once the record was withdrawn', async () => {
    const fresh = await signedBy(stage, 'Ruth Amsel', ruths);
    const word = makeCosign(stage, 'Dev Pradhan', fresh);
    const request = await cosignRequest(stage, 'Dev Pradhan', word, devs, fresh.who.person);
    await withdrawPractical(
      stage.as('Ruth Amsel'),
      fresh.signoff,
      { reason: 'Wrong bench' },
      stage.site,
    );
    expect(await send('Dev Pradhan', request, fresh.signoff)).toMatchObject({
      ok: false,
      status: 409,
      message: 'This practical was withdrawn, so there is nothing left to sign.',
    });
  });
});

describe('who may sign a second time', () => {
  it.each([
    ['Mira Holt', 403],
    ['Tom Okafor', 403],
    ['Anna Weir', 403],
  ])('refuses %s', async (name, status) => {
    const done = await send(name, await changed({}));
    expect(done).toMatchObject({ ok: false, status, path: '' });
  });

  it('refuses who signed the record', async () => {
    expect(await cosign(stage, 'Ruth Amsel', read, ruths)).toMatchObject({
      ok: false,
      status: 403,
      message:
        'Whoever signed a practical does not sign it a second time: another trainer does this.',
    });
  });

  it('refuses the trainer who was watched', async () => {
    const own = await signedBy(stage, 'Ruth Amsel', ruths, {
      person: stage.person('Dev Pradhan').person,
    });
    const word = makeCosign(stage, 'Dev Pradhan', own);
    const request = await cosignRequest(stage, 'Dev Pradhan', word, devs, own.who.person);
    expect(await send('Dev Pradhan', request, own.signoff)).toMatchObject({
      ok: false,
      status: 403,
    });
  });

  it('refuses somebody who is not signed in', async () => {
    const done = await receiveCosign(null, read.signoff, await changed({}), stage.site);
    expect(done).toMatchObject({ ok: false, status: 401 });
  });

  it('refuses one trainer sending what another signed', async () => {
    expect(await send('Nils Arden', await changed({}))).toMatchObject({
      ok: false,
      status: 403,
      path: 'event.by',
    });
  });

  it('knows no record of another workshop', async () => {
    const stranger = { ...stage.as('Dev Pradhan'), org: newId() };
    const done = await receiveCosign(stranger, read.signoff, await changed({}), stage.site);
    expect(done).toMatchObject({ ok: false, status: 404 });
  });
});

describe("what a second trainer's word must carry", () => {
  it.each([
    ['another record', { signoff: newId() }, 'signoff'],
    ['another statement', { statementHash: 'b'.repeat(64) }, 'statementHash'],
    ['another unit', { unit: 'Sweep up' }, 'unit'],
  ])('refuses a word on %s', async (_, over, path) => {
    expect(await send('Dev Pradhan', await changed(over))).toMatchObject({
      ok: false,
      status: 422,
      path,
    });
  });

  it('refuses "disagrees" without a reason', async () => {
    const done = await send('Dev Pradhan', await changed({ answer: 'disagrees', note: null }));
    expect(done).toMatchObject({ ok: false, status: 422, path: 'body.statement.note' });
  });

  it('refuses a word changed after it was signed', async () => {
    const request = await changed({ answer: 'disagrees', note: 'The gap was not measured.' });
    const { body } = request.event;
    const statement = { ...body.statement, note: 'All is well.' };
    const done = await send('Dev Pradhan', {
      ...request,
      event: { ...request.event, body: { ...body, statement } },
    });
    expect(done).toMatchObject({ ok: false, status: 422, path: 'deviceSignature' });
  });

  it('refuses a key that nobody enrolled, and the key of another trainer', async () => {
    const strange = await generateSigningKey({ keep: 'on-device' });
    for (const key of [strange, nils]) {
      expect(await cosign(stage, 'Dev Pradhan', read, key)).toMatchObject({
        ok: false,
        status: 422,
        path: 'keyId',
      });
    }
  });

  it('refuses a ticket for something else, and keeps nothing', async () => {
    const [one, other] = [await changed({}), await changed({})];
    const done = await send('Dev Pradhan', { ...one, ticket: other.ticket });
    expect(done).toMatchObject({ ok: false, status: 403, path: 'ticket' });
    expect(await stage.site.store.event(one.event.id)).toBeNull();
  });

  it('refuses a word signed with a device that was ended before it came', async () => {
    const key = await enrolledKey(stage, 'Nils Arden');
    const word = makeCosign(stage, 'Nils Arden', read);
    const request = await cosignRequest(stage, 'Nils Arden', word, key, read.who.person);
    const ended = await endDeviceKey(
      stage.as('Nils Arden'),
      { id: newId(), keyId: key.keyId, reason: 'lost', password: PASSWORD },
      { address: null, headers: null },
      stage.site,
    );
    expect(ended.ok).toBe(true);
    expect(await send('Nils Arden', request)).toMatchObject({ ok: false, path: 'keyId' });
  });
});
