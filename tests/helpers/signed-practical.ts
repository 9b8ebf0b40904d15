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

async function post<Value>(page: Page, url: string, path: string, data: unknown): Promise<Value> {
  const reply = await page.request.post(`${url}${path}`, { data, headers: { origin: url } });
  expect(reply.status(), await reply.text()).toBe(200);
  return (await reply.json()) as Value;
}

/** Another device of whoever the page is signed in as: an enrolled key that stays in this process. */
async function enrolDevice(page: Page, url: string) {
  const key = await generateSigningKey({ keep: 'on-device' });
  const { enrolTicket } = await post<{ enrolTicket: string }>(
    page,
    url,
    '/api/practicals/confirm',
    { password: DEMO_PASSWORD, statements: [], key: enrolmentHash(key.keyId) },
  );
  const publicKey = publicJwkOf(key.publicKey);
  const told = { keyId: key.keyId, publicKey, label: 'tablet', ticket: enrolTicket };
  await post(page, url, '/api/device-keys', told);
  return key;
}

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
  const kit = (await (await page.request.get(`${url}/api/kit`)).json()) as Kit;
  const key = await enrolDevice(page, url);
  const who = kit.people.find(({ name }) => name === trainee);
  const [bench] = kit.benches;
  const sets = loadLimitSets('content');
  const set = sets.get(bench?.limits ?? '');
  const practice = sets.get('practice');
  const whole = loadUnits('content').get('set-knife-and-guard');
  if (!who || !bench || !set || !practice || !whole) throw new Error('the kit is not whole');
  const unit = unitToWatch(whole, 'rip', [set, practice]);
  const today = dayOf(new Date().toISOString());
  const digest = toHex(sha256(photo ?? new Uint8Array([1])));
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
  const { tickets } = await post<{ tickets: string[] }>(page, url, '/api/practicals/confirm', {
    password: DEMO_PASSWORD,
    statements: [statementHashOf(statement)],
    key: null,
  });
  const event = {
    id: statement.signoff,
    kind: 'practical.signed',
    version: 1,
    org: statement.org,
    at: new Date().toISOString(),
    by: person,
    about: who.person,
    body: await signStatement(statement, key),
  };
  await post(page, url, '/api/practicals', { event, sheet, ticket: tickets[0] });
  if (photo !== null) {
    const sent = await page.request.put(
      `${url}/api/photos/${digest}?signoff=${statement.signoff}`,
      {
        data: Buffer.from(photo),
        headers: { origin: url, 'content-type': 'image/jpeg' },
      },
    );
    expect(sent.status(), await sent.text()).toBe(200);
  }
  return statement;
}
