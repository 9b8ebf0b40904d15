import { organisationName, type Site } from '../../accounts/index.ts';
import {
  authorisationsOf,
  benchStateOf,
  type LogEvent,
  type MatrixCell,
  matrixAt,
} from '../../competence/index.ts';
import { didOf, type EventOf, openCheckpoint, toBase64 } from '../../records/index.ts';
import { sayIn } from '../../words/say.ts';
import { instantOf } from '../_desk/authorise/list.ts';
import type { SignedEvent } from '../_desk/proof-of.ts';
import { storyOf } from '../_desk/story-of.ts';
import { isInvented, type Workshop, withPeople, workshopOf } from '../_desk/workshop.ts';
import type { PackChoice } from './choice.ts';
import { readConsistency } from './consistency.ts';
import type { PackContent, PackLeave, PackPerson, PackSheet } from './content.ts';
import { photosOf } from './photos.ts';
import { type PickedSheets, pickSheets } from './pick-sheets.ts';
import { proveLeave, proveSheet } from './prove.ts';
import { scopePeople } from './scope-people.ts';
import { snapshotOf } from './snapshot.ts';
import { textsOf } from './texts-in-force.ts';

/** How far the making of a pack has come: proofs made, of all there are to make. */
export type Progress = (done: number, all: number) => void;

export type PackRequest = {
  readonly org: string;
  readonly choice: PackChoice;
  /** the instant it is made: the same request at the same instant, of the same log, makes the same bytes */
  readonly made: string;
  /** the whole address of a path of the site, for the codes */
  readonly addressOf: (path: string) => string;
};

const countsFrom = ({ at, received }: LogEvent): number =>
  Math.min(Date.parse(at), Date.parse(received));

/** What had happened by then, by what is known now. */
const heldBy = (events: readonly LogEvent[], instant: string): LogEvent[] =>
  events.filter((event) => countsFrom(event) <= Date.parse(instant));

type Given = EventOf<'authorisation.given'>;
type Found = {
  readonly cells: readonly MatrixCell[];
  readonly given: readonly Given[];
  readonly sheets: PickedSheets;
};

type Work = {
  readonly site: Site;
  readonly request: PackRequest;
  readonly workshop: Workshop;
  readonly events: readonly LogEvent[];
  readonly instant: string;
  readonly step: () => Promise<void>;
};

const isIn = (bench: string, { request }: Work): boolean =>
  request.choice.bench === null || request.choice.bench === bench;

/** What there is about one person, before anything of it is proved. */
function findOf(person: string, cells: readonly MatrixCell[], work: Work): Found {
  const { events, instant, workshop } = work;
  const own = events.filter(({ about }) => about === person);
  const shared = events.filter(
    ({ kind }) => !/^(practical|practice|authorisation|appeal)\./.test(kind),
  );
  const { units, nameOf } = workshop;
  const asked = { events: [...new Set([...shared, ...own])], person, at: instant, units, nameOf };
  const inForce = new Set(
    authorisationsOf(asked)
      .filter(({ state }) => state === 'in-force')
      .map(({ id }) => id),
  );
  const given = own
    .filter((event): event is LogEvent & Given => event.kind === 'authorisation.given')
    .filter(({ body, id }) => inForce.has(id) && isIn(body.statement.bench.id, work));
  const basis = new Set(given.flatMap(({ body }) => body.statement.basis));
  const sheets = pickSheets(own, { basis, asOf: work.request.choice.asOf }).filter(({ body }) =>
    isIn(body.statement.bench.id, work),
  );
  return { cells, given, sheets };
}

async function leaveOf(given: Given, work: Work): Promise<PackLeave> {
  const { instant, request, site, workshop } = work;
  const { statement } = given.body;
  const { units, nameOf } = workshop;
  const events = work.events.filter(
    ({ about, kind }) =>
      about === statement.who.person || !/^(practical|practice|authorisation|appeal)\./.test(kind),
  );
  const person = statement.who.person;
  const status = authorisationsOf({ events, person, at: instant, units, nameOf }).find(
    ({ id }) => id === given.id,
  );
  if (status === undefined) throw new Error('An authorisation in force has a standing.');
  const proof = await proveLeave(given, site, request.made);
  await work.step();
  return {
    statement,
    status,
    givenAt: given.at,
    giver: nameOf(statement.by.person),
    proof,
    address: request.addressOf(`/proof/leave/${given.id}`),
  };
}

async function sheetOf(event: SignedEvent, work: Work): Promise<PackSheet> {
  const { instant, request, site, workshop } = work;
  const { keyId, statement } = event.body;
  const story = (await storyOf(event, site)).filter(
    ({ at, kind }) => kind !== 'signed' && Date.parse(at) <= Date.parse(instant),
  );
  const proof = await proveSheet(statement.signoff, request.org, site, request.made);
  await work.step();
  return {
    statement,
    trainer: workshop.nameOf(statement.trainer.person),
    keyId,
    signedAt: event.at,
    receivedAt: event.received,
    story,
    photos: request.choice.photos === 'shown' ? await photosOf(statement, request.org, site) : [],
    proof,
    address: request.addressOf(`/proof/${statement.signoff}`),
  };
}

async function inTurn<Item, Made>(
  items: readonly Item[],
  make: (item: Item) => Promise<Made>,
): Promise<Made[]> {
  const made: Made[] = [];
  for (const item of items) made.push(await make(item));
  return made;
}

/**
 * Everything a pack says: who might do what on the day asked about, with every authorisation in force and every
 * sign-off that held then, each proved, and the texts they were held against.
 */
export async function gatherPack(
  request: PackRequest,
  site: Site,
  progress: Progress = () => {},
): Promise<PackContent> {
  const { choice, made, org } = request;
  const still = snapshotOf(site);
  const say = sayIn(choice.language);
  const bare = await workshopOf(org, still, {}, say);
  const workshop = await withPeople(bare, await scopePeople(choice, bare, still), still);
  const instant = instantOf(choice.asOf, made);
  const events = heldBy(workshop.events, instant);
  const { nameOf, people: here, units } = workshop;
  const log = { events: workshop.events, people: here, units, nameOf };
  const matrix = matrixAt(log, instant, {
    ...(choice.people.length === 0 ? {} : { people: choice.people }),
    ...(choice.bench === null ? {} : { benches: [choice.bench] }),
  });
  const roles = new Map(matrix.people.map(({ person, role }) => [person, role]));
  const wanted = matrix.people.filter(({ role }) => role !== 'employer');
  let done = 0;
  let all = 0;
  const step = async () => {
    done += 1;
    progress(done, all);
    // other requests get their turn between two proofs
    await new Promise((next) => setImmediate(next));
  };
  const work: Work = { site: still, request, workshop, events, instant, step };
  const found = wanted.map(({ person }) => ({
    person,
    ...findOf(
      person,
      matrix.cells.filter((cell) => cell.person === person),
      work,
    ),
  }));
  all = found.reduce((sum, { given, sheets }) => sum + given.length + sheets.length, 0);
  const people = await inTurn(
    found,
    async ({ cells, given, person, sheets }): Promise<PackPerson> => ({
      person,
      name: nameOf(person),
      role: roles.get(person) ?? 'trainee',
      cells,
      leaves: await inTurn(given, (one) => leaveOf(one, work)),
      sheets: await inTurn(sheets, (one) => sheetOf(one, work)),
    }),
  );
  const checkpoint = await site.store.checkpoint();
  const opened = await openCheckpoint(checkpoint, [site.siteKey.publicKey]);
  if (!opened.ok) throw new Error('The newest checkpoint is not signed by this site.');
  const { origin, root, size } = opened.checkpoint;
  const benches = matrix.benches.map((bench) => ({
    ...bench,
    service: benchStateOf(events, bench.id, instant).state,
  }));
  return {
    choice,
    made,
    instant,
    asOf: choice.asOf,
    org,
    organisation: await organisationName(org, site),
    invented: await isInvented(org, site),
    altered: workshop.altered.length,
    people,
    benches,
    ...textsOf({ people, benches, workshop, contentDir: site.contentDir }),
    issuer: didOf(site.siteKey.keyId),
    log: { origin, size, root: toBase64(root) },
    checkpoint,
    consistency: await readConsistency(choice.earlier, checkpoint, site),
    nameOf,
  };
}
