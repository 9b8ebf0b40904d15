import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { fillDemoWorkshop, openSite, type Site } from '../../src/accounts/index.ts';
import { handIn, startAttempt } from '../../src/attempts/index.ts';
import { addDays, addMonths, dayOf } from '../../src/competence/index.ts';
import {
  canonicalText,
  generateSigningKey,
  logOriginOf,
  newId,
  publicJwkOf,
  type SigningKey,
  type Statement,
  signCheckpoint,
  signStatement,
  toHex,
} from '../../src/records/index.ts';
import { openSiteKey } from '../../src/store/index.ts';
import { signOffInFull } from '../book/signed-off.ts';
import { enterLeave, partsOfDemo } from '../helpers/demo-parts.ts';

export type LargeStore = {
  readonly people: number;
  readonly events: number;
  readonly bytesPerEvent: number;
  readonly seconds: number;
};

const sha256 = (...parts: (Buffer | string)[]): Buffer => {
  const sum = createHash('sha256');
  for (const part of parts) sum.update(part);
  return sum.digest();
};
const LEAF = Buffer.from([0]);
const NODE = Buffer.from([1]);

type Template = { readonly kind: string; readonly json: string };

/** The key of a trainer's device, made and entered in the log. */
async function enrolDevice(site: Site, org: string, person: string): Promise<SigningKey> {
  const device = await generateSigningKey({ keep: 'on-device' });
  await site.store.append({
    id: newId(),
    kind: 'device-key.enrolled',
    version: 1,
    org,
    at: new Date().toISOString(),
    by: person,
    about: person,
    body: { keyId: device.keyId, publicKey: publicJwkOf(device.publicKey), label: 'tablet' },
  });
  return device;
}

/** One trainee of the invented workshop, signed off in full, authorised, and with an attempt of every kind. */
async function fillTemplate(
  site: Site,
  password: string,
): Promise<{ org: string; person: string; device: SigningKey }> {
  const filled = await fillDemoWorkshop(site, password);
  if (!filled.ok) throw new Error(filled.refusal.message);
  const parts = await partsOfDemo(site);
  const { bench, org } = parts;
  const [who, trainer] = [parts.person('Mira Holt'), parts.person('Ruth Amsel')];
  const day = addDays(dayOf(new Date().toISOString()), -1);
  const device = await enrolDevice(site, org, trainer.person);
  const sign = (statement: Statement) => signStatement(statement, device);
  const basis = await signOffInFull(site, { trainer, who, org, bench, work: 'rip', day, sign });
  const viewer = {
    ...who,
    org,
    email: 'mira.holt@alderlane.example',
    signedInAt: new Date().toISOString(),
  };
  const given = await startAttempt(site, viewer, { task: 'walk-round' });
  if (!given.ok) throw new Error(given.refusal.message);
  const handed = await handIn(site, viewer, { token: given.value.token, actions: [], claims: [] });
  if (!handed.ok) throw new Error(handed.refusal.message);
  await enterLeave(
    site,
    parts,
    { who, by: trainer, role: 'trainer' },
    {
      from: day,
      until: addMonths(day, 12),
      supervised: 'as-usual',
      largest: { thickness: 100, length: null },
      conditions: ['Softwood only'],
      basis,
    },
  );
  return { org, person: who.person, device };
}

/** Version 7 of RFC 9562, counted up, so that no two are alike and all sort as they were made. */
const idAt = (count: number): string => {
  const low = count.toString(16).padStart(12, '0');
  return `019cb323-e501-7101-9${low.slice(0, 3)}-${low.slice(3).padStart(12, '0')}`;
};

/** The tree of RFC 6962, leaf by leaf: a stack of whole subtrees, each written down as it is made. */
function makeTree(write: (level: number, position: number, hash: Buffer) => void) {
  const stack: { level: number; hash: Buffer }[] = [];
  let size = 0;
  return {
    add(leaf: Buffer): void {
      let made = { level: 0, hash: leaf };
      let position = size++;
      write(0, position, leaf);
      for (let top = stack.at(-1); top?.level === made.level; top = stack.at(-1)) {
        stack.pop();
        position = Math.floor(position / 2);
        made = { level: made.level + 1, hash: sha256(NODE, top.hash, made.hash) };
        write(made.level, position, made.hash);
      }
      stack.push(made);
    },
    root: () =>
      stack.reduceRight<Buffer | null>(
        (right, { hash }) => (right === null ? hash : sha256(NODE, hash, right)),
        null,
      ) ?? sha256(''),
  };
}

/**
 * Fills an empty data folder with the invented workshop grown to `people` trainees and about `events` events: each
 * has what one real trainee of it has, under ids of their own, and attempts for the rest. The log is whole: leaves,
 * tree, signatures and signed head are what the site would have written one by one.
 */
export async function makeLargeStore(
  dataDir: string,
  { people, events, password }: { people: number; events: number; password: string },
): Promise<LargeStore> {
  const began = performance.now();
  const site = await openSite({
    dataDir,
    contentDir: 'content',
    address: new URL('http://localhost'),
  });
  const { org, person, device } = await fillTemplate(site, password);
  await site.store.close();

  const file = join(dataDir, 'store.sqlite');
  const database = new DatabaseSync(file);
  database.exec('pragma synchronous = off; pragma journal_mode = wal; pragma cache_size = -400000');
  const rows = database.prepare('select kind, json from event order by seq').all() as Template[];
  const own = rows.filter(
    ({ json, kind }) => kind !== 'person.joined' && JSON.parse(json).about === person,
  );
  const attempts = own.filter(({ kind }) => kind.startsWith('attempt.'));
  const others = own.filter(({ kind }) => !kind.startsWith('attempt.'));
  // every id that an own event made is made anew for each person
  const made = new Set(
    own.flatMap(({ json }) => {
      const { id, body } = JSON.parse(json);
      return [id, body.attempt, body.session].filter((one) => typeof one === 'string');
    }),
  );
  const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
  const perPerson = Math.floor((events - rows.length) / people) - 1;
  const rounds = Math.max(0, Math.floor((perPerson - others.length) / attempts.length));

  const tree = (() => {
    const insert = database.prepare(
      'insert or ignore into tree_node (level, position, hash) values (?, ?, ?)',
    );
    return makeTree((level, position, hash) => insert.run(level, position, hash.toString('hex')));
  })();
  const insertEvent = database.prepare(
    'insert into event (seq, id, org, kind, by, about, json) values (?, ?, ?, ?, ?, ?, ?)',
  );
  database.exec('begin');
  let seq = 0;
  let bytes = 0;
  let counted = 0;
  const leaf = (json: string) => {
    tree.add(sha256(LEAF, json));
    bytes += Buffer.byteLength(json);
    seq++;
  };
  for (const { json } of rows) leaf(json);
  const enter = async (given: string) => {
    const event = JSON.parse(given);
    const { id, kind, by, about, body } = event;
    let json = given;
    if (kind === 'practical.signed') {
      json = canonicalText({ ...event, body: await signStatement(body.statement, device) });
    }
    insertEvent.run(seq, id, org, kind, by, about, json);
    leaf(json);
  };
  const user = database.prepare(
    'insert into user (id, name, email, emailVerified, createdAt, updatedAt) values (?, ?, ?, 0, ?, ?)',
  );
  const member = database.prepare(
    "insert into membership (person, org, role, salt, joinedAt) values (?, ?, 'trainee', ?, ?)",
  );
  const joined = rows.find(
    ({ json, kind }) => kind === 'person.joined' && json.includes(person),
  )?.json;
  const now = new Date().toISOString();
  for (let one = 1; one <= people; one++) {
    const self = `large-${String(one).padStart(6, '0')}`;
    const anew = (json: string): string => {
      const known = renamed;
      return json.replaceAll(UUID, (id) => {
        if (id === person) return self;
        if (!made.has(id)) return id;
        const is = known.get(id) ?? idAt(++counted);
        known.set(id, is);
        return is;
      });
    };
    let renamed = new Map<string, string>();
    const name = `Trainee ${String(one).padStart(6, '0')}`;
    user.run(self, name, `${self}@alderlane.example`, now, now);
    member.run(self, org, sha256(self).toString('hex').slice(0, 32), now);
    if (joined !== undefined) {
      const parsed = JSON.parse(joined);
      await enter(joined.replaceAll(person, self).replaceAll(parsed.id, idAt(++counted)));
    }
    for (const { json } of others) await enter(anew(json));
    for (let round = 0; round < rounds; round++) {
      renamed = new Map();
      for (const { json } of attempts) await enter(anew(json));
    }
  }
  const root = new Uint8Array(tree.root());
  const key = await openSiteKey(join(dataDir, 'site-key.json'), file);
  const note = await signCheckpoint({ origin: logOriginOf(key.keyId), size: seq, root }, key);
  database.prepare('update log_head set size = ?, root = ?, note = ?').run(seq, toHex(root), note);
  database.exec('commit; pragma wal_checkpoint(truncate)');
  database.close();
  const seconds = (performance.now() - began) / 1000;
  return { people, events: seq, bytesPerEvent: Math.round(bytes / seq), seconds };
}
