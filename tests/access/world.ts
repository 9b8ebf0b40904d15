import { addPerson } from '../../src/accounts/add-person.ts';
import {
  acceptInvitation,
  fillDemoWorkshop,
  invite,
  makeCalendarAddress,
  makeGroup,
  makeResetLink,
  makeShareLink,
  openSite,
  peopleOf,
  type Site,
  signIn,
  type Viewer,
} from '../../src/accounts/index.ts';
import { openSitting, startAttempt } from '../../src/attempts/index.ts';
import { registerOf } from '../../src/competence/index.ts';
import { keepPhoto } from '../../src/pages/_desk/keep-photo.ts';
import {
  authorisationMeaningOf,
  type EventDraft,
  nameHash,
  newId,
  newSalt,
  readEventDraft,
  type SigningKey,
  type Statement,
  sha256,
  toHex,
} from '../../src/records/index.ts';
import { cookieHeader, granted, requestWith } from '../accounts/temp-site.ts';
import { photoBytes } from '../helpers/photo-bytes.ts';
import { signedBy } from '../practical/after.ts';
import { enrolledKey, PASSWORD, type Stage } from '../practical/workshop.ts';
import type { Packs } from './make-packs.ts';
import { makeWorldPlace, type WorldPlace } from './place.ts';

/** One of each thing that has an address of its own. */
export type Things = {
  readonly person: string;
  readonly attempt: string;
  readonly sitting: string;
  readonly practical: string;
  readonly leave: string;
};

/** Two invented workshops in one store, with their people signed in and a thing of every kind in each. */
export type World = {
  readonly place: WorldPlace;
  /** cookie header of each viewer; nobody has none */
  readonly cookies: Readonly<Record<ViewerName, string>>;
  /** by whose they are: of a trainee, of another trainee, of a trainer, of the other workshop's trainee */
  readonly things: Readonly<Record<'mira' | 'tom' | 'dev' | 'far', Things>>;
  /** what belongs to a workshop as a whole */
  readonly shared: Readonly<Record<'near' | 'far', Shared>>;
  /** packs to show, by who had them made */
  readonly packs: Packs;
  readonly orgs: Readonly<Record<'near' | 'far', string>>;
};
export type Shared = {
  readonly bench: string;
  readonly group: string;
  readonly calendar: string;
  readonly invitation: string;
  readonly reset: string;
  readonly share: string;
  readonly photo: string;
  readonly key: string;
};

export const VIEWERS = [
  'nobody',
  'former',
  'mira',
  'tom',
  'ruth',
  'dev',
  'anna',
  'farTrainee',
  'farTrainer',
  'farEmployer',
] as const;
export type ViewerName = (typeof VIEWERS)[number];

const PHOTO = photoBytes();
export const PHOTO_DIGEST = toHex(sha256(PHOTO));

/** The other workshop: made past the rule that a site is set up once, which holds for its own page. */
async function makeFarOrg(site: Site): Promise<Viewer> {
  const org = newId();
  const at = new Date().toISOString();
  const salt = newSalt();
  const name = 'Ruth Amsel';
  const email = 'ruth.amsel@beechrow.example';
  const passwordHash = await (await site.auth.$context).password.hash(PASSWORD);
  const person = await site.store.write(async (write) => {
    await write.db
      .insertInto('organisation')
      .values({ id: org, name: 'Beech Row Joinery', salt, invented: 1, madeAt: at })
      .execute();
    const made = await addPerson(write, { org, role: 'trainer', name, email, passwordHash }, at);
    await write.append({
      id: newId(),
      kind: 'organisation.created',
      version: 1,
      org,
      at,
      by: made,
      about: org,
      body: { nameHash: nameHash('Beech Row Joinery', salt) },
    });
    return made;
  });
  return { person, org, name, email, role: 'trainer', signedInAt: at };
}

async function bringIn(
  site: Site,
  trainer: Viewer,
  name: string,
  role: Viewer['role'],
  at: string,
) {
  const { path } = granted(await invite(trainer, { role, name }, site));
  const email = `${name.toLowerCase().replace(' ', '.')}@${at}`;
  const token = path.split('/').at(-1) ?? '';
  granted(await acceptInvitation(token, { name, email, password: PASSWORD }, site));
}

async function stageOf(site: Site, org: string, domain: string): Promise<Stage> {
  const people = await peopleOf(org, site);
  const person = (name: string) => {
    const found = people.find((one) => one.name === name);
    if (found === undefined) throw new Error(`nobody is called ${name}`);
    return found;
  };
  const stored = await site.store.events({ org, kinds: ['bench.registered'] });
  const bench = registerOf(stored.flatMap(({ event }) => (event === null ? [] : [event])))[0];
  if (bench === undefined) throw new Error('no bench is registered');
  return {
    site,
    dataDir: '',
    tamper: async () => {
      throw new Error('the store of a running site is left alone');
    },
    person,
    bench,
    as: (name) => ({
      person: person(name).person,
      org,
      name,
      email: `${name.toLowerCase().replace(' ', '.')}@${domain}`,
      role: person(name).role,
      signedInAt: new Date().toISOString(),
    }),
    close: async () => undefined,
  };
}

async function enter(site: Site, draft: Omit<EventDraft, 'at'>): Promise<void> {
  const read = readEventDraft({ ...draft, at: new Date().toISOString() });
  if (!read.ok) throw new Error(read.error.message);
  await site.store.append(read.event);
}

async function giveLeave(stage: Stage, statement: Statement): Promise<string> {
  const id = newId();
  const { bench, validFrom, validUntil, who, org } = statement;
  const giver = stage.person('Anna Weir');
  const unsaid = {
    schema: 'authorisation/1' as const,
    id,
    org,
    who,
    by: { person: giver.person, nameHash: giver.nameHash, role: 'employer' as const },
    bench: { id: bench.id, asset: bench.asset },
    work: ['rip' as const],
    from: validFrom as string,
    until: validUntil as string,
    supervised: 'as-usual' as const,
    largest: { thickness: null, length: null },
    conditions: [],
    age: { rule: 'gb', answer: 'old-enough' as const },
    basis: [statement.signoff],
  };
  await enter(stage.site, {
    id,
    kind: 'authorisation.given',
    version: 1,
    org,
    by: giver.person,
    about: who.person,
    body: { statement: { ...unsaid, meaning: authorisationMeaningOf(unsaid) } },
  } as Omit<EventDraft, 'at'>);
  return id;
}

async function thingsOf(stage: Stage, name: string, key: SigningKey): Promise<Things> {
  const viewer = stage.as(name);
  const { site } = stage;
  const attempt = granted(await startAttempt(site, viewer, { task: 'walk-round' })).attempt;
  const sat = granted(
    await openSitting(site, viewer, {
      blueprint: 'rip-test',
      how: 'begin',
      time: 'as-set',
      hold: 'a-tab-of-this-test-0001',
    }),
  );
  if (sat.state !== 'open' || attempt === null) throw new Error('nothing was begun');
  const photos = [{ digest: PHOTO_DIGEST, criterion: null }];
  const read = await signedBy(stage, 'Ruth Amsel', key, { person: viewer.person, photos });
  await keepPhoto(
    stage.as('Ruth Amsel'),
    { digest: PHOTO_DIGEST, signoff: read.signoff },
    { type: 'image/jpeg', bytes: PHOTO },
    site,
  );
  return {
    person: viewer.person,
    attempt,
    sitting: sat.given.attempt,
    practical: read.signoff,
    leave: await giveLeave(stage, read),
  };
}

async function sharedOf(stage: Stage, key: SigningKey): Promise<Shared> {
  const { site } = stage;
  const ruth = stage.as('Ruth Amsel');
  const language = 'en' as const;
  const invited = granted(await invite(ruth, { role: 'trainee', name: 'Ada Brook' }, site));
  const calendar = granted(await makeCalendarAddress(ruth, { names: 'full', language }, site));
  const about = stage.person('Tom Okafor').person;
  const asked = { id: newId(), person: about, clears: 'password' as const, password: PASSWORD };
  const reset = granted(await makeResetLink(ruth, asked, null, site));
  const until = new Date(Date.now() + 5 * 86_400_000).toISOString().slice(0, 10);
  const wanted = { id: newId(), purpose: 'Visit', until, people: [], bench: null };
  const share = granted(await makeShareLink(stage.as('Anna Weir'), wanted, site));
  return {
    share: share.split('/').at(-1) ?? '',
    reset: reset.path.split('/').at(-1) ?? '',
    bench: stage.bench.id,
    group: granted(await makeGroup(ruth, { id: newId(), name: 'Monday' }, site)),
    calendar: calendar.replace(/^\/calendar\/(.*)\.ics$/, '$1'),
    invitation: invited.path.split('/').at(-1) ?? '',
    photo: PHOTO_DIGEST,
    key: key.keyId,
  };
}

async function cookieOf(site: Site, email: string): Promise<string> {
  const input = { email, password: PASSWORD };
  return cookieHeader(granted(await signIn(requestWith(), input, null, site)));
}

/** Makes the world on disk, packs apart, and closes it again, so that a site of its own process can open it. */
export async function makeWorld(): Promise<Omit<World, 'packs'>> {
  const place = await makeWorldPlace();
  const { dataDir, database } = place;
  const address = new URL('http://localhost');
  const site = await openSite({ dataDir, contentDir: 'content', address, database });
  granted(await fillDemoWorkshop(site, PASSWORD));
  const row = await site.store.db.selectFrom('organisation').select('id').executeTakeFirstOrThrow();
  const near = await stageOf(site, row.id, 'alderlane.example');
  const farRuth = await makeFarOrg(site);
  for (const [name, role] of [
    ['Mira Holt', 'trainee'],
    ['Tom Okafor', 'trainee'],
    ['Anna Weir', 'employer'],
    ['Dev Pradhan', 'trainer'],
  ] as const) {
    await bringIn(site, farRuth, name, role, 'beechrow.example');
  }
  await bringIn(site, near.as('Ruth Amsel'), 'Nils Arden', 'trainee', 'alderlane.example');
  const [registered] = await site.store.events({ org: row.id, kinds: ['bench.registered'] });
  if (registered?.event?.kind !== 'bench.registered') throw new Error('no bench');
  const farBench = newId();
  await enter(site, {
    id: newId(),
    kind: 'bench.registered',
    version: 2,
    org: farRuth.org,
    by: farRuth.person,
    about: farBench,
    body: { ...registered.event.body, bench: farBench },
  });
  const far = await stageOf(site, farRuth.org, 'beechrow.example');
  const nearKey = await enrolledKey(near, 'Ruth Amsel');
  const farKey = await enrolledKey(far, 'Ruth Amsel');
  const things = {
    mira: await thingsOf(near, 'Mira Holt', nearKey),
    tom: await thingsOf(near, 'Tom Okafor', nearKey),
    dev: await thingsOf(near, 'Dev Pradhan', nearKey),
    far: await thingsOf(far, 'Mira Holt', farKey),
  };
  const shared = { near: await sharedOf(near, nearKey), far: await sharedOf(far, farKey) };
  const at = (who: string, domain: string) => cookieOf(site, `${who}@${domain}.example`);
  const cookies = {
    nobody: '',
    former: await at('nils.arden', 'alderlane'),
    mira: await at('mira.holt', 'alderlane'),
    tom: await at('tom.okafor', 'alderlane'),
    ruth: await at('ruth.amsel', 'alderlane'),
    dev: await at('dev.pradhan', 'alderlane'),
    anna: await at('anna.weir', 'alderlane'),
    farTrainee: await at('mira.holt', 'beechrow'),
    farTrainer: await at('ruth.amsel', 'beechrow'),
    farEmployer: await at('anna.weir', 'beechrow'),
  };
  // whoever has left still holds the cookie of a session that has not run out
  const nils = (await peopleOf(row.id, site)).find(({ name }) => name === 'Nils Arden');
  await site.store.db
    .deleteFrom('membership')
    .where('person', '=', nils?.person ?? '')
    .execute();
  await site.store.close();
  return {
    place,
    cookies,
    things,
    shared,
    orgs: { near: row.id, far: farRuth.org },
  };
}
