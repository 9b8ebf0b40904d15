import {
  can,
  factorsOf,
  organisationName,
  peopleOf,
  type Site,
  type Viewer,
} from '../../accounts/index.ts';
import {
  benchStateOf,
  isSigned,
  isWithdrawn,
  type LogEvent,
  rulesOf,
} from '../../competence/index.ts';
import type { Kit, KitOut, KitSigned } from '../../panels/signing/index.ts';
import { readTogether } from './read-events.ts';
import { type Done, refusedFor } from './refused.ts';
import { type Shop, shopOf, whyNotWrite } from './workshop.ts';

/** Practicals a device is given to show, the newest of the log. */
const MOST_SIGNED = 400;

function signedOf(events: readonly LogEvent[]): KitSigned[] {
  const withdrawn = new Set(events.filter(isWithdrawn).map(({ body }) => body.signoff));
  return events
    .filter(isSigned)
    .filter(({ altered, body }) => altered !== true && !withdrawn.has(body.signoff))
    .map(({ body: { statement } }) => ({
      person: statement.who.person,
      bench: statement.bench.id,
      work: statement.work,
      unit: statement.unit.id,
      observedAt: statement.observedAt,
      decision: statement.decision,
      trainer: statement.trainer.person,
    }));
}

async function readSigned(org: string, { store }: Site): Promise<readonly LogEvent[]> {
  const signed = await store.events({ org, kinds: ['practical.signed'], last: MOST_SIGNED });
  const abouts = signed.flatMap(({ event }) => event?.about ?? []);
  const withdrawn = await store.events({ org, kinds: ['practical.withdrawn'], abouts });
  return readTogether(signed, withdrawn).events;
}

const outOf = ({ benches, events }: Shop, at: string): KitOut[] =>
  benches.flatMap(({ id }) => {
    const { reason, since, state } = benchStateOf(events, id, at);
    return state === 'in-service' ? [] : [{ bench: id, since: since ?? at, reason: reason ?? '' }];
  });

const passwordSetAt = async (person: string, { store }: Site): Promise<string> => {
  const row = await store.db
    .selectFrom('account')
    .select('updatedAt')
    .where('userId', '=', person)
    .where('providerId', '=', 'credential')
    .executeTakeFirst();
  return String(row?.updatedAt ?? '');
};

/** Everything a trainer needs to watch, measure, decide and sign where the site cannot be reached. */
export async function kitOf(
  viewer: Viewer | null,
  site: Site,
  now: Date = new Date(),
): Promise<Done<Kit>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out');
  const { org, person, name, email } = viewer;
  if (!can(viewer, 'kit.read', { org, person })) return refusedFor(403, '', whyNotWrite(viewer));
  const shop = await shopOf(org, site);
  const people = await peopleOf(org, site);
  const trainer = people.find((one) => one.person === person);
  if (trainer === undefined) return refusedFor(403, '', 'desk.not-here');
  const wanted = new Set(['practice', ...shop.benches.map(({ limits }) => limits)]);
  return {
    ok: true,
    value: {
      schema: 'kit/1',
      madeAt: now.toISOString(),
      org: { id: org, name: await organisationName(org, site) },
      trainer: {
        person,
        name,
        nameHash: trainer.nameHash,
        email,
        passwordSetAt: await passwordSetAt(person, site),
        passkeys: (await factorsOf(site.store.db, person)).passkeys.length > 0,
      },
      people: people.map((one) => ({
        person: one.person,
        name: one.name,
        nameHash: one.nameHash,
        role: one.role,
      })),
      benches: shop.benches,
      units: shop.units,
      sets: [...shop.sets.values()].filter(({ id }) => wanted.has(id)),
      rules: rulesOf(shop.events, now.toISOString()),
      signed: signedOf(await readSigned(org, site)),
      out: outOf(shop, now.toISOString()),
    },
  };
}
