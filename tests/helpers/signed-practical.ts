import { expect, type Page } from '@playwright/test';
import {
  dayOf,
  lastDayAllowed,
  type Sheet,
  settleReadings,
  unitToWatch,
} from '../../src/competence/index.ts';
import { writeStatement } from '../../src/competence/sheet/index.ts';
import type { Kit } from '../../src/panels/signing/index.ts';
import { enrolmentHash, statementHashOf } from '../../src/panels/signing/index.ts';
import {
  generateSigningKey,
  newId,
  publicJwkOf,
  type SigningKey,
  type Statement,
  sha256,
  signStatement,
  toHex,
  withMeaning,
} from '../../src/records/index.ts';
import { loadLimitSets, loadUnits } from '../../src/store/content-files.ts';
import { DEMO_PASSWORD } from './site.ts';

/** Units and readings that a bench set well gives, for ripping. */
const READINGS: Sheet['readings'] = [
  { setting: 'gap-at-table', value: 5, unit: 'mm', instrument: 'feeler' },
  { setting: 'gap-widest', value: 6, unit: 'mm', instrument: 'feeler' },
  { setting: 'tip-drop', value: 2, unit: 'mm', instrument: 'square' },
  { setting: 'knife-thickness', value: 3.2, unit: 'mm', instrument: 'calliper' },
  { setting: 'guard-to-stock', value: 8, unit: 'mm', instrument: 'feeler' },
];

/** How a test asks a running site for JSON, as somebody who is signed in. Throws where the answer is not 200. */
export type Ask = {
  readonly get: <Value>(path: string) => Promise<Value>;
  readonly post: <Value>(path: string, data: unknown) => Promise<Value>;
};

const askAs = (page: Page, url: string): Ask => ({
  get: async <Value>(path: string) =>
    (await (await page.request.get(`${url}${path}`)).json()) as Value,
  post: async <Value>(path: string, data: unknown) => {
    const reply = await page.request.post(`${url}${path}`, { data, headers: { origin: url } });
    expect(reply.status(), await reply.text()).toBe(200);
    return (await reply.json()) as Value;
  },
});

/** Another device of whoever is signed in: an enrolled key that stays in this process. */
export async function enrolDevice(ask: Ask): Promise<SigningKey> {
  const key = await generateSigningKey({ keep: 'on-device' });
  const { enrolTicket } = await ask.post<{ enrolTicket: string }>('/api/practicals/confirm', {
    password: DEMO_PASSWORD,
    statements: [],
    key: enrolmentHash(key.keyId),
  });
  const publicKey = publicJwkOf(key.publicKey);
  const told = { keyId: key.keyId, publicKey, label: 'tablet', ticket: enrolTicket };
  await ask.post('/api/device-keys', told);
  return key;
}

/** The sheet and the statement of a practical of knife and guard, everything seen and set right. */
export function writeSignOff(
  kit: Kit,
  trainee: string,
  photo: Uint8Array | null = null,
): { readonly sheet: Sheet; readonly statement: Statement } {
  const who = kit.people.find(({ name }) => name === trainee);
  const [bench] = kit.benches;
  const sets = loadLimitSets('content');
  const set = sets.get(bench?.limits ?? '');
  const practice = sets.get('practice');
  const whole = loadUnits('content').get('set-knife-and-guard');
  if (!who || !bench || !set || !practice || !whole) throw new Error('the kit is not whole');
  const unit = unitToWatch(whole, 'rip', [set, practice]);
  const today = dayOf(new Date().toISOString());
  const digest = digestOf(photo);
  const sheet: Sheet = {
    person: who.person,
    bench: bench.id,
    work: 'rip',
    unit: unit.id,
    observedAt: today,
    place: 'Machine shop',
    material: 'Redwood, 50 mm, dry',
    blade: { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 },
    criteria: unit.criteria.map(({ id }) => ({ id, result: 'yes' as const })),
    readings: READINGS,
    stops: [],
    conditions: ['Softwood up to 50 mm'],
    decision: 'signed-off',
    validFrom: today,
    validUntil: lastDayAllowed(today),
    practical: newId(),
    photos: [
      { digest, criterion: unit.criteria[0]?.id ?? null },
      { digest: 'f'.repeat(64), criterion: null },
    ],
    acknowledged: { answer: 'agrees', words: 'I will check the gap again.' },
    confirmed: 'site',
  };
  const settled = settleReadings(sheet, unit, { bench: bench.file, set, practice });
  const { person, nameHash } = kit.trainer;
  const statement = withMeaning(
    writeStatement(sheet, settled, unit, {
      signoff: newId(),
      org: kit.org.id,
      who: { person: who.person, nameHash: who.nameHash },
      trainer: { person, nameHash },
      bench: { id: bench.id, asset: bench.asset, guardKind: bench.file.guard?.kind ?? 'none' },
      limits: { set: set.id, version: String(set.version) },
    }),
  );
  return { sheet, statement };
}

const digestOf = (photo: Uint8Array | null): string => toHex(sha256(photo ?? new Uint8Array([1])));

/** What is sent of a statement, signed by a device. */
export const draftSigned = async (statement: Statement, key: SigningKey) => ({
  id: statement.signoff,
  kind: 'practical.signed',
  version: 1,
  org: statement.org,
  at: new Date().toISOString(),
  by: statement.trainer.person,
  about: statement.who.person,
  body: await signStatement(statement, key),
});

/**
 * Signs a practical of knife and guard over the interface, as the trainer the page is signed in as, on a
 * device of its own; returns what was signed. The photos are named, and none of them is sent.
 */
export async function signOverInterface(
  page: Page,
  url: string,
  trainee: string,
  photo: Uint8Array | null = null,
): Promise<Statement> {
  const ask = askAs(page, url);
  const kit = await ask.get<Kit>('/api/kit');
  const key = await enrolDevice(ask);
  const { sheet, statement } = writeSignOff(kit, trainee, photo);
  const { tickets } = await ask.post<{ tickets: string[] }>('/api/practicals/confirm', {
    password: DEMO_PASSWORD,
    statements: [statementHashOf(statement)],
    key: null,
  });
  const event = await draftSigned(statement, key);
  await ask.post('/api/practicals', { event, sheet, ticket: tickets[0] });
  if (photo !== null) {
    const sent = await page.request.put(
      `${url}/api/photos/${digestOf(photo)}?signoff=${statement.signoff}`,
      {
        data: Buffer.from(photo),
        headers: { origin: url, 'content-type': 'image/jpeg' },
      },
    );
    expect(sent.status(), await sent.text()).toBe(200);
  }
  return statement;
}
