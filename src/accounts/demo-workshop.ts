import type { Bench } from '../bench/index.ts';
import { type BodyOf, newId } from '../records/index.ts';
import { loadBenches } from '../store/content-files.ts';
import { acceptInvitation, invite } from './invitations.ts';
import { createOrganisation } from './organisation.ts';
import { makePassphrase } from './passphrase.ts';
import { grant, type Outcome, refuseAs } from './problems.ts';
import { setPassword } from './set-password.ts';
import type { Site } from './site.ts';
import type { Role, Viewer } from './viewer.ts';

export type DemoSignIn = {
  readonly name: string;
  readonly role: Role;
  readonly email: string;
  readonly password: string;
};

type DemoPerson = Omit<DemoSignIn, 'password'>;

/** Everything here is invented. */
const WORKSHOP = 'Alder Lane Joinery';
const FIRST: DemoPerson = {
  name: 'Ruth Amsel',
  role: 'trainer',
  email: 'ruth.amsel@alderlane.example',
};
const OTHERS: readonly DemoPerson[] = [
  { name: 'Dev Pradhan', role: 'trainer', email: 'dev.pradhan@alderlane.example' },
  { name: 'Mira Holt', role: 'trainee', email: 'mira.holt@alderlane.example' },
  { name: 'Tom Okafor', role: 'trainee', email: 'tom.okafor@alderlane.example' },
  { name: 'Jess Lindqvist', role: 'trainee', email: 'jess.lindqvist@alderlane.example' },
  { name: 'Anna Weir', role: 'employer', email: 'anna.weir@alderlane.example' },
];

type BenchEntry = Pick<BodyOf<'bench.registered'>, 'asset' | 'title' | 'work' | 'limits'> & {
  readonly file: string;
};

const BENCHES: readonly BenchEntry[] = [
  {
    asset: 'AL-01',
    title: 'Bench 1',
    work: ['rip', 'crosscut'],
    limits: 'gb',
    file: 'alder-lane-1',
  },
  {
    asset: 'AL-02',
    title: 'Bench 2',
    work: ['rip', 'crosscut'],
    limits: 'gb',
    file: 'alder-lane-2',
  },
];

/** What lies with each of the two machines. */
const HELD: Pick<BodyOf<'bench.registered'>, 'change' | 'blades' | 'knives' | 'documents'> = {
  change: 'entry',
  blades: [
    { mark: 'R 400', diameter: 400, kerf: 4.2, plate: 2.8, teeth: 28, cut: 'rip' },
    { mark: 'C 400', diameter: 400, kerf: 3.8, plate: 2.6, teeth: 60, cut: 'crosscut' },
  ],
  knives: [{ mark: 'K 3.2', thickness: 3.2, fits: [350, 400] }],
  documents: [
    { title: "Maker's manual", where: 'Shelf beside the office door' },
    { title: 'Risk assessment of the bench', where: 'Folder 2, machine shop' },
  ],
};

function findBench(contentDir: string, file: string): Bench {
  const bench = loadBenches(contentDir).get(file);
  if (bench === undefined) throw new Error(`content/benches has no ${file}.yaml.`);
  return bench;
}

/** A step that can only be refused by a mistake of ours. */
function expectGranted<Value>(outcome: Outcome<Value>): Value {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.refusal.message);
}

async function demoOrganisation({
  store,
}: Site): Promise<{ state: 'empty' | 'real' } | { state: 'invented'; org: string }> {
  const organisations = await store.db
    .selectFrom('organisation')
    .select(['id', 'invented'])
    .execute();
  if (organisations.some((one) => one.invented === 0)) return { state: 'real' };
  const [first] = organisations;
  return first === undefined ? { state: 'empty' } : { state: 'invented', org: first.id };
}

async function firstTrainer(site: Site, org: string): Promise<Viewer> {
  const { person } = await site.store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select('person')
    .where('org', '=', org)
    .where('email', '=', FIRST.email)
    .executeTakeFirstOrThrow();
  return { person, org, ...FIRST, signedInAt: new Date().toISOString() };
}

async function giveSignIn(
  site: Site,
  trainer: Viewer,
  member: DemoPerson,
  password: string,
): Promise<void> {
  const existing = await site.store.db
    .selectFrom('user')
    .select('id')
    .where('email', '=', member.email)
    .executeTakeFirst();
  if (existing !== undefined) {
    expectGranted(await setPassword(site, existing.id, password));
    return;
  }
  const { path } = expectGranted(await invite(trainer, member, site));
  const token = path.slice(path.lastIndexOf('/') + 1);
  expectGranted(await acceptInvitation(token, { ...member, password }, site));
}

async function registerBenches(site: Site, trainer: Viewer): Promise<void> {
  const registered = await site.store.events({ org: trainer.org, kinds: ['bench.registered'] });
  const assets = new Set(registered.map(({ event }) => event?.body.asset));
  for (const { file, ...entry } of BENCHES) {
    if (assets.has(entry.asset)) continue;
    const bench = newId();
    await site.store.append({
      id: newId(),
      kind: 'bench.registered',
      version: 2,
      org: trainer.org,
      at: new Date().toISOString(),
      by: trainer.person,
      about: bench,
      body: { bench, ...entry, ...HELD, file: findBench(site.contentDir, file) },
    });
  }
}

/**
 * Fills the invented workshop: 2 trainers, 3 trainees, 1 employer, 2 benches, through the same steps as real
 * people take. Run again it adds what is missing, gives everybody a new passphrase and ends their sessions.
 * Refused where a real organisation exists.
 * @param password one for everybody, instead of a fresh passphrase each
 */
export async function fillDemoWorkshop(
  site: Site,
  password?: string,
): Promise<Outcome<readonly DemoSignIn[]>> {
  const found = await demoOrganisation(site);
  if (found.state === 'real') {
    return refuseAs(409, '', { key: 'set-up.real' });
  }
  const signIns = [FIRST, ...OTHERS].map((member) => ({
    ...member,
    password: password ?? makePassphrase(),
  }));
  const [first, ...others] = signIns as [DemoSignIn, ...DemoSignIn[]];
  let org = found.state === 'invented' ? found.org : '';
  if (found.state === 'empty') {
    const made = await createOrganisation({ organisation: WORKSHOP, ...first }, 'invented', site);
    if (!made.ok) return made;
    org = made.value.org;
  }
  const trainer = await firstTrainer(site, org);
  if (found.state === 'invented') await giveSignIn(site, trainer, first, first.password);
  for (const member of others) await giveSignIn(site, trainer, member, member.password);
  await registerBenches(site, trainer);
  return grant(signIns);
}
