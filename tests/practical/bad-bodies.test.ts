import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { actOnPractical } from '../../src/pages/_desk/act-on-practical.ts';
import { confirmSigner } from '../../src/pages/_desk/confirm-signer.ts';
import { endDeviceKey } from '../../src/pages/_desk/end-device-key.ts';
import { enrolKey } from '../../src/pages/_desk/enrol-key.ts';
import { receiveCosign } from '../../src/pages/_desk/receive-cosign.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import type { Done } from '../../src/pages/_desk/refused.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import { newId, type SigningKey, type Statement } from '../../src/records/index.ts';
import { cosignRequest, makeCosign, signedBy } from './after.ts';
import { enrolledKey, openStage, PASSWORD, type Stage } from './workshop.ts';

/** Bodies that no form of ours sends: each is refused with one sentence, and nothing is entered. */
let stage: Stage;
let devs: SigningKey;
let read: Statement;
let right: Awaited<ReturnType<typeof cosignRequest>>;
beforeAll(async () => {
  stage = await openStage();
  devs = await enrolledKey(stage, 'Dev Pradhan');
  read = await signedBy(stage, 'Ruth Amsel', await enrolledKey(stage, 'Ruth Amsel'));
  const word = makeCosign(stage, 'Dev Pradhan', read);
  right = await cosignRequest(stage, 'Dev Pradhan', word, devs, read.who.person);
}, 60_000);
afterAll(() => stage.close());

async function countEvents(): Promise<number> {
  let count = 0;
  for await (const _ of stage.site.store.readAll()) count += 1;
  return count;
}

async function expectRefused(ask: () => Promise<Done<unknown>>): Promise<void> {
  const before = await countEvents();
  const done = await ask();
  if (done.ok) throw new Error('it was taken in');
  expect(done.status).toBeGreaterThanOrEqual(400);
  expect(done.status).toBeLessThan(500);
  expect(done.message).toMatch(/^\S.*[.?]$/);
  expect(done.message).not.toMatch(/undefined|\[object|Invalid input/);
  expect(await countEvents()).toBe(before);
}

const NOT_BODIES: readonly (readonly [string, unknown])[] = [
  ['nothing', undefined],
  ['null', null],
  ['a number', 7],
  ['text', 'event'],
  ['a list', []],
  ['an empty object', {}],
  ['a field too many', { event: {}, ticket: 't', extra: 1 }],
  ['a deep object', JSON.parse(`${'{"event":'.repeat(200)}1${'}'.repeat(200)}`)],
  ['a prototype', JSON.parse('{"__proto__": {"event": {}}, "constructor": 1}')],
];

/** The right request with one place of it exchanged. */
const exchanged = (path: readonly string[], value: unknown): unknown => {
  const copy = structuredClone(right) as unknown as Record<string, unknown>;
  let at = copy;
  for (const step of path.slice(0, -1)) at = at[step] as Record<string, unknown>;
  at[path.at(-1) ?? ''] = value;
  return copy;
};
const PLACES = [
  ['ticket'],
  ['event'],
  ['event', 'id'],
  ['event', 'kind'],
  ['event', 'version'],
  ['event', 'org'],
  ['event', 'at'],
  ['event', 'by'],
  ['event', 'about'],
  ['event', 'body'],
  ['event', 'body', 'keyId'],
  ['event', 'body', 'deviceSignature'],
  ['event', 'body', 'statement'],
  ['event', 'body', 'statement', 'schema'],
  ['event', 'body', 'statement', 'id'],
  ['event', 'body', 'statement', 'signoff'],
  ['event', 'body', 'statement', 'statementHash'],
  ['event', 'body', 'statement', 'unit'],
  ['event', 'body', 'statement', 'trainer'],
  ['event', 'body', 'statement', 'answer'],
  ['event', 'body', 'statement', 'note'],
  ['event', 'body', 'statement', 'meaning'],
];
const VALUES: readonly unknown[] = [7, '', {}, [], true, 'x'.repeat(5000), '\u0000', newId()];

describe("POST /api/practicals/ID/cosign, a second trainer's word", () => {
  const send = (input: unknown, signoff = read.signoff) =>
    receiveCosign(stage.as('Dev Pradhan'), signoff, input, stage.site);

  it.each(NOT_BODIES)('refuses %s', (_, body) => expectRefused(() => send(body)));

  it.each(PLACES.map((path) => [path.join('.'), path] as const))(
    'refuses any other value of %s',
    async (_, path) => {
      for (const value of VALUES) await expectRefused(() => send(exchanged(path, value)));
    },
  );

  it.each(['', 'x', '../..', newId(), 'x'.repeat(5000)])('knows no record "%s"', (signoff) =>
    expectRefused(() => send(right, signoff)),
  );

  it('takes the right one in after all that', async () => {
    expect(await send(right)).toMatchObject({ ok: true });
  });
});

describe('the other requests of a device', () => {
  const dev = () => stage.as('Dev Pradhan');
  const ASKS: readonly (readonly [string, (body: unknown) => Promise<Done<unknown>>])[] = [
    ['a sign-in at the moment of signing', (body) => confirmSigner(dev(), body, null, stage.site)],
    ['a new key', (body) => enrolKey(dev(), body, stage.site)],
    ['a signed practical', (body) => receivePractical(dev(), body, stage.site)],
    ['a withdrawal', (body) => withdrawPractical(dev(), read.signoff, body, stage.site)],
  ];
  it.each(ASKS)('refuses every body that is none: %s', async (_, ask) => {
    for (const [, body] of NOT_BODIES) await expectRefused(() => ask(body));
  });
});

describe('POST /practical/ID, the forms of a record', () => {
  const ids = ['', 'x', '0', 'x'.repeat(5000), '\u0000'];
  const forms: Record<string, string>[] = [
    {},
    { do: '' },
    { do: 'constructor' },
    { do: 'delete' },
    ...ids.map((id) => ({ do: 'answer', id, answer: 'agrees' })),
    { do: 'answer', answer: 'agrees' },
    { do: 'answer', id: newId() },
    { do: 'answer', id: newId(), answer: 'x'.repeat(5000) },
    { do: 'answer', id: newId(), answer: 'appeals', words: '\n \t' },
    { do: 'answer', id: newId(), answer: 'appeals', words: 'x'.repeat(5000) },
    { do: 'settle' },
    ...ids.map((appeal) => ({
      do: 'settle',
      id: newId(),
      appeal,
      outcome: 'stands',
      reason: 'x',
    })),
    { do: 'settle', id: newId(), appeal: newId(), outcome: 'stands', reason: 'x'.repeat(5000) },
    { do: 'withdraw' },
    { do: 'withdraw', id: 'x', reason: 'x' },
    { do: 'withdraw', id: newId(), reason: ' ' },
  ];
  it.each(forms.map((form) => [JSON.stringify(form).slice(0, 80), form] as const))(
    'refuses %s',
    async (_, form) => {
      for (const name of ['Mira Holt', 'Dev Pradhan', 'Anna Weir', 'Tom Okafor']) {
        await expectRefused(() => actOnPractical(stage.as(name), read.signoff, form, stage.site));
      }
    },
  );
});

describe('POST /devices, the end of a key', () => {
  const send = (input: unknown) =>
    endDeviceKey(stage.as('Dev Pradhan'), input, { address: null, headers: null }, stage.site);
  const whole = () => ({ id: newId(), keyId: devs.keyId, reason: 'lost', password: PASSWORD });

  it.each(NOT_BODIES)('refuses %s', (_, body) => expectRefused(() => send(body)));

  it.each(['id', 'keyId', 'reason', 'password'])('refuses any other value of %s', async (field) => {
    const values = VALUES.filter((value) => field !== 'id' || typeof value !== 'string');
    const more = field === 'id' ? ['', 'x'] : [undefined];
    for (const value of [...values, ...more]) {
      // a wrong password of fitting length would count as a try, and is tested elsewhere
      if (field === 'password' && typeof value === 'string' && value.length < 129 && value)
        continue;
      await expectRefused(() => send({ ...whole(), [field]: value }));
    }
  });
});
